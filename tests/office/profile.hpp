// The folder in which an office keeps its settings and extensions.
#pragma once

#include <filesystem>
#include <string>

namespace jarbook::office {

class Profile {
public:
    // A profile that stays; the folder is made when it is not there. Without a folder: a fresh one
    // among the temporary files, that is removed with this object.
    explicit Profile(const std::filesystem::path& folder);
    ~Profile();
    Profile(const Profile&) = delete;
    Profile& operator=(const Profile&) = delete;

    const std::filesystem::path& folder() const noexcept { return folder_; }
    // Everything the office wrote to its outputs.
    std::filesystem::path log() const { return folder_ / "office.log"; }
    // The end of that, for messages.
    std::string log_tail() const;

    // Writes the settings of a profile that has never been started: `locale` (as in de-DE) for
    // numbers and, where the language is installed, the interface; nothing that asks or greets.
    // A profile that has settings already keeps them.
    void prepare(const std::string& locale) const;

private:
    std::filesystem::path folder_;
    bool temporary_;
};

} // namespace jarbook::office
