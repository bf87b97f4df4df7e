#include "app/cli/row_reader.hpp"

#include <cmath>

namespace quillbench::cli {

namespace {

constexpr double kHighestChannel = 255.0;

} // namespace

template <typename T>
std::optional<T> RowReader::keep(const Result<T>& result) {
    if (result) {
        return *result;
    }
    if (!problem_) {
        problem_ = result.error();
    }
    return std::nullopt;
}

void RowReader::text(const char* field, std::string& into) {
    if (const auto value = keep(row_.text(field)); value && *value) {
        into = **value;
    }
}

void RowReader::text(const char* field, std::optional<std::string>& into) {
    if (const auto value = keep(row_.text(field)); value && *value) {
        into = *value;
    }
}

void RowReader::number(const char* field, double& into) {
    if (const auto value = keep(row_.number(field)); value && *value) {
        into = **value;
    }
}

void RowReader::number(const char* field, std::optional<double>& into) {
    if (const auto value = keep(row_.number(field)); value && *value) {
        into = *value;
    }
}

void RowReader::numbers(const char* field, std::vector<double>& into) {
    if (const auto value = keep(row_.numbers(field))) {
        into = *value;
    }
}

void RowReader::textList(const char* field, std::vector<std::string>& into) {
    if (const auto value = keep(row_.textList(field))) {
        into = *value;
    }
}

void RowReader::texts(const char* field, std::map<std::string, std::string>& into) {
    if (const auto value = keep(row_.texts(field))) {
        into = *value;
    }
}

void RowReader::channel(std::optional<int>& into) {
    std::optional<double> channel;
    number("channel", channel);
    if (!channel) {
        return;
    }
    if (!(*channel >= 0.0 && *channel <= kHighestChannel && std::floor(*channel) >= *channel)) {
        if (!problem_) {
            problem_ = Error{ErrorCode::UnreadableInput,
                             row_.place() + ": channel has to be a whole number, 0 to 255",
                             {}};
        }
        return;
    }
    into = static_cast<int>(*channel);
}

} // namespace quillbench::cli
