#include "support/published.hpp"

namespace published {

std::string data_folder() {
    return JARBOOK_DATA;
}

} // namespace published
