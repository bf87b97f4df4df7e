#pragma once

#include "app/formats/batch_file.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

/// Copies fields of a batch row where they are there; keeps the first failure.
class RowReader {
public:
    explicit RowReader(const BatchRow& row) : row_(row) {}

    void text(const char* field, std::string& into);
    void text(const char* field, std::optional<std::string>& into);
    void number(const char* field, double& into);
    void number(const char* field, std::optional<double>& into);
    void numbers(const char* field, std::vector<double>& into);
    void textList(const char* field, std::vector<std::string>& into);
    void texts(const char* field, std::map<std::string, std::string>& into);

    /// A channel counts from 0.
    void channel(std::optional<int>& into);

    [[nodiscard]] const std::optional<Error>& problem() const { return problem_; }

private:
    template <typename T>
    std::optional<T> keep(const Result<T>& result);

    const BatchRow& row_;
    std::optional<Error> problem_;
};

} // namespace quillbench::cli
