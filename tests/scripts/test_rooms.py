#!/usr/bin/env python3
"""Holds the includes of addin-src and the size of its rooms against the table in DEVELOPERS.md.

The table "Rooms" says for each folder what it may look at; a room may also look at what those may.
Whatever an include crosses without leave, whatever lies in a folder that the table does not know, a
room of more than a dozen stems, a circle of includes and a first line that does not say what the
file is for fail here.
"""
import pathlib
import re
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
SOURCE = ROOT / "addin-src"
INCLUDE = re.compile(r'^#include "([^"]+)"', re.MULTILINE)
MOST_STEMS = 12
# Generated into the build folder, and what stands beside the sources: not files of a room.
ELSEWHERE = {"catalogue.hpp": "catalogue", "uno/text/version.hpp": "uno/text"}
TEXTS = "texts"  # texts/TABLE.hpp, one for each table


def table():
    """{room: (purpose, rooms it names)} as DEVELOPERS.md has it."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `((?:core|uno)/[a-z_]+)` \| (.+?) \|(.*)\|$", text, re.MULTILINE)
    return {room: (purpose, re.findall(r"`([^`]+)`", looks)) for room, purpose, looks in rows}


ROOMS = table()


def allowed(room):
    """All that a room may look at, itself included."""
    seen, todo = {room}, list(ROOMS[room][1])
    while todo:
        other = todo.pop()
        if other not in seen:
            seen.add(other)
            todo += ROOMS[other][1] if other in ROOMS else []
    return seen


def files():
    return sorted(path for path in SOURCE.rglob("*.?pp") if path.parent.parent.parent == SOURCE)


def room_of(path):
    return path.parent.relative_to(SOURCE).as_posix()


class Rooms(unittest.TestCase):
    def test_table_is_read(self):
        self.assertGreaterEqual(len(ROOMS), 17)
        folders = {room_of(path) for path in files()}
        self.assertEqual(set(ROOMS), folders)

    def test_only_named_rooms_name_rooms(self):
        for room, (_, looks) in ROOMS.items():
            for other in looks:
                self.assertIn(other, set(ROOMS) | set(ELSEWHERE.values()) | {TEXTS}, f"{room} names it")

    def test_no_circle_of_rooms(self):
        for room in ROOMS:
            for other in ROOMS[room][1]:
                if other in ROOMS:
                    self.assertNotIn(room, allowed(other), f"{room} and {other} look at each other")

    def test_includes_look_down(self):
        count = 0
        for path in files():
            may = allowed(room_of(path))
            for include in INCLUDE.findall(path.read_text(encoding="utf-8")):
                there = ELSEWHERE.get(include) or include.rpartition("/")[0]
                self.assertIn(there, may, f"{path.relative_to(SOURCE)} includes {include}")
                made = include in ELSEWHERE or there == TEXTS
                self.assertTrue(made or (SOURCE / include).is_file(), include)
                count += 1
        self.assertGreater(count, 200)

    def test_no_circle_of_files(self):
        graph = {path.relative_to(SOURCE).as_posix(): INCLUDE.findall(path.read_text(encoding="utf-8"))
                 for path in SOURCE.rglob("*.hpp")}
        done, under_way = set(), []

        def visit(name):
            self.assertNotIn(name, under_way, "headers include each other: " + " > ".join(under_way))
            if name in done or name not in graph:
                return
            under_way.append(name)
            for other in graph[name]:
                visit(other)
            under_way.pop()
            done.add(name)

        for name in graph:
            visit(name)

    def test_rooms_are_small(self):
        for room in ROOMS:
            stems = {path.stem for path in files() if room_of(path) == room}
            self.assertLessEqual(len(stems), MOST_STEMS, f"{room}: {sorted(stems)}")

    def test_headers_say_what_they_are_for(self):
        for path in SOURCE.rglob("*.hpp"):
            self.assertTrue(path.read_text(encoding="utf-8").startswith("// "), path)

    def test_nothing_lies_between_rooms(self):
        loose = {path.relative_to(SOURCE).as_posix() for path in SOURCE.rglob("*.?pp")
                 if path not in files()}
        self.assertEqual(loose, {"uno/component.cpp"})


if __name__ == "__main__":
    unittest.main()
