// jarbook-pictures DISPLAY FOLDER: shows the worked example in a visible Calc as README tells of
// it, takes a picture of each scene (ImageMagick's import), and stores the pages of one run sheet
// as run-sheet.pdf. Places are found by the names that the sheets have for them.
#include <chrono>
#include <com/sun/star/awt/PosSize.hpp>
#include <com/sun/star/awt/XWindow.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/sheet/XViewPane.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <thread>

#include "office.hpp"
#include "text.hpp"

namespace {

using namespace com::sun::star;
using jarbook::office::Document;
using jarbook::office::Office;
using jarbook::office::to_uno;
using jarbook::office::to_utf8;

struct Size {
    int width, height;
};
// As wide as a run sheet, and what a window over a few cells needs.
constexpr Size screen{1060, 768};
constexpr Size small{1180, 600};
const char* const run = "Run 1";

class Scene {
public:
    Scene(Office& office, const Document& document, Size size)
        : office_(office), book_(document.uno()) {
        office_.call("arranging the window", [&] {
            const uno::Reference<frame::XModel> model(book_, uno::UNO_QUERY_THROW);
            controller_ = model->getCurrentController();
            controller_->getFrame()->getContainerWindow()->setPosSize(0, 0, size.width, size.height,
                                                                      awt::PosSize::POSSIZE);
        });
    }

    uno::Reference<sheet::XSpreadsheet> sheet_called(const std::string& name) {
        return {book_->getSheets()->getByName(to_uno(name)), uno::UNO_QUERY_THROW};
    }

    // A cell by a name that is local to its sheet.
    uno::Reference<table::XCellRange> named(const std::string& sheet_name,
                                            const std::string& name) {
        const uno::Reference<beans::XPropertySet> properties(sheet_called(sheet_name),
                                                             uno::UNO_QUERY_THROW);
        const uno::Reference<container::XNameAccess> names(
            properties->getPropertyValue("NamedRanges"), uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XCellRangeReferrer> range(names->getByName(to_uno(name)),
                                                              uno::UNO_QUERY_THROW);
        return range->getReferredCells();
    }

    // Brings a row to the top of what scrolls, `above` rows above it left in view, and selects
    // a cell.
    void look_at(const std::string& sheet_name, const uno::Reference<table::XCellRange>& cells,
                 int above, const uno::Reference<table::XCellRange>& selected) {
        office_.call("scrolling", [&] {
            const uno::Reference<sheet::XSpreadsheetView> view(controller_, uno::UNO_QUERY_THROW);
            view->setActiveSheet(sheet_called(sheet_name));
            const uno::Reference<view::XSelectionSupplier> selection(controller_,
                                                                     uno::UNO_QUERY_THROW);
            selection->select(uno::Any(selected));
            const uno::Reference<sheet::XCellRangeAddressable> place(cells, uno::UNO_QUERY_THROW);
            const uno::Reference<container::XIndexAccess> panes(controller_, uno::UNO_QUERY_THROW);
            const uno::Reference<sheet::XViewPane> pane(panes->getByIndex(panes->getCount() - 1),
                                                        uno::UNO_QUERY_THROW);
            pane->setFirstVisibleColumn(0);
            pane->setFirstVisibleRow(place->getRangeAddress().StartRow - above);
        });
    }

    // Returns before the command ends: it may show a window.
    void dispatch(const std::string& address) {
        office_.call("calling " + address, [&] {
            util::URL url;
            url.Complete = to_uno(address);
            const auto colon = address.find(':');
            url.Protocol = to_uno(address.substr(0, colon + 1));
            url.Path = to_uno(address.substr(colon + 1));
            const uno::Reference<frame::XDispatchProvider> provider(controller_->getFrame(),
                                                                    uno::UNO_QUERY_THROW);
            provider->queryDispatch(url, "_self", 0)->dispatch(url, {});
        });
    }

private:
    Office& office_;
    uno::Reference<sheet::XSpreadsheetDocument> book_;
    uno::Reference<frame::XController> controller_;
};

std::string content(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

// Once nothing moves any more: three pictures in a row that are the same.
void take(const std::string& display, const std::filesystem::path& file) {
    const std::string command =
        "import -display " + display + " -window root '" + file.string() + "'";
    std::string before;
    for (int tries = 0, same = 0; tries < 60 && same < 2; ++tries) {
        std::this_thread::sleep_for(std::chrono::seconds(2));
        if (std::system(command.c_str()) != 0)
            throw std::runtime_error("no picture: " + command);
        const std::string now = content(file);
        same = now == before ? same + 1 : 0;
        before = now;
    }
    std::cout << "took " << file.filename().string() << std::endl;
}

void take_workbook(Office& office, const std::string& display,
                   const std::filesystem::path& folder) {
    Document document =
        office.open(std::filesystem::path(JARBOOK_WORKBOOKS) / "jarbook-worked-example.ods",
                    jarbook::office::Shown::yes);
    document.hard_recalculate();
    Scene scene(office, document, screen);
    const auto jars = scene.named(run, "first_drip");
    scene.look_at(run, jars, 2, scene.named(run, "page_still"));
    take(display, folder / "at-the-still.ppm");
    scene.look_at(run, scene.named(run, "fitted_stages"), 6, scene.named(run, "page_still"));
    take(display, folder / "chart.ppm");

    // The pages of this run alone, as they are printed.
    for (const std::string& name : document.sheet_names())
        if (name != run)
            office.call("leaving " + name + " out",
                        [&] { document.uno()->getSheets()->removeByName(to_uno(name)); });
    document.save(folder / "run-sheet.pdf");
    document.close();
}

void take_why(Office& office, const std::string& display, const std::filesystem::path& folder) {
    const auto file = folder / "why.ods";
    {
        Document document = office.new_document();
        auto sheet = document.sheet();
        const char* const texts[][3] = {{"Jar", "Reading", "Temperature"},
                                        {"1", "78.5", "22.0"},
                                        {"2", "764", "22.5"},
                                        {"3", "74.0", "22.5"}};
        for (int row = 0; row < 4; ++row)
            for (int column = 0; column < 3; ++column)
                sheet.cell(column, row).set_formula(texts[row][column]);
        sheet.cell("D1").set_text("True strength");
        for (int row = 2; row <= 4; ++row) {
            const std::string number = std::to_string(row);
            sheet.cell("D" + number)
                .set_formula("=SPIRIT.STRENGTH(B" + number + ";C" + number + ")");
        }
        sheet.cell("C6").set_text("mean, % vol");
        sheet.cell("D6").set_formula("=AVERAGE(D2:D4)");
        office.call("two decimals", [&] {
            const uno::Reference<beans::XPropertySet> strengths(
                sheet.uno()->getCellRangeByName("D2:D6"), uno::UNO_QUERY_THROW);
            strengths->setPropertyValue("NumberFormat", uno::Any(sal_Int32(2)));
        });
        document.save(file);
        document.close();
    }
    Document document = office.open(file, jarbook::office::Shown::yes);
    Scene scene(office, document, small);
    const std::string name = document.sheet_names().front();
    const uno::Reference<table::XCellRange> cell(
        scene.sheet_called(name)->getCellRangeByName("D6"));
    scene.look_at(name, scene.sheet_called(name)->getCellRangeByName("A1"), 0, cell);
    scene.dispatch("org.jarbook.menu:whyError");
    take(display, folder / "why-this-error.ppm");
    std::filesystem::remove(file);
}

} // namespace

int main(int count, char** words) {
    if (count != 3) {
        std::cerr << "jarbook-pictures DISPLAY FOLDER\n";
        return 2;
    }
    try {
        const std::string display = words[1];
        const std::filesystem::path folder = words[2];
        std::filesystem::create_directories(folder);
        Office office({.display = display});
        office.install(JARBOOK_OXT);
        take_workbook(office, display, folder);
        take_why(office, display, folder);
        // Its last window is open: ended from outside by the harness.
        return 0;
    } catch (const std::exception& trouble) {
        std::cerr << "jarbook-pictures: " << trouble.what() << "\n";
        return 1;
    }
}
