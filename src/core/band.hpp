#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

// Symmetric matrices in which only neighbours meet, as those of a beam: no entry is further than
// three columns from the diagonal. At the size of an axle a quarter of the work of full ones.
namespace podwright {

/// Entries (i, i - 3) to (i, i) of row i of the lower half; those before the first column are 0.
using BandRow = std::array<double, 4>;

/// The first column of row i that is in the band.
constexpr std::size_t first_column(std::size_t i) { return i > 3 ? i - 3 : 0; }

/// The matrix becomes L, with L L^T what it was (Cholesky). False, and the matrix is spoilt, where
/// it is not positive definite.
inline bool factor(std::span<BandRow> matrix) {
    for (std::size_t i = 0; i < matrix.size(); ++i)
        for (std::size_t j = first_column(i); j <= i; ++j) {
            double left = matrix[i][j + 3 - i];
            for (std::size_t k = first_column(i); k < j; ++k)
                left -= matrix[i][k + 3 - i] * matrix[j][k + 3 - j];
            if (j < i)
                matrix[i][j + 3 - i] = left / matrix[j][3];
            else if (left > 0)
                matrix[i][3] = std::sqrt(left);
            else
                return false;
        }
    return true;
}

/// Several right sides at once: row i of the block belongs to row i of the matrix.
template <std::size_t columns>
using BandBlock = std::span<std::array<double, columns>>;

/// to -= factor * of, column by column.
template <std::size_t columns>
void take_away(std::array<double, columns>& to, double factor,
               const std::array<double, columns>& of) {
    for (std::size_t c = 0; c < columns; ++c) to[c] -= factor * of[c];
}

/// The block becomes L^-1 times what it was.
template <std::size_t columns>
void solve_lower(std::span<const BandRow> lower, BandBlock<columns> block) {
    for (std::size_t i = 0; i < lower.size(); ++i) {
        for (std::size_t k = first_column(i); k < i; ++k)
            take_away(block[i], lower[i][k + 3 - i], block[k]);
        for (double& v : block[i]) v /= lower[i][3];
    }
}

/// The block becomes L^-T times what it was.
template <std::size_t columns>
void solve_transposed(std::span<const BandRow> lower, BandBlock<columns> block) {
    for (std::size_t i = lower.size(); i-- > 0;) {
        for (double& v : block[i]) v /= lower[i][3];
        for (std::size_t k = first_column(i); k < i; ++k)
            take_away(block[k], lower[i][k + 3 - i], block[i]);
    }
}

/// product = matrix times block.
template <std::size_t columns>
void multiply(std::span<const BandRow> matrix, BandBlock<columns> block,
              BandBlock<columns> product) {
    std::fill(product.begin(), product.end(), std::array<double, columns>{});
    for (std::size_t i = 0; i < matrix.size(); ++i) {
        for (std::size_t k = first_column(i); k < i; ++k) {
            take_away(product[i], -matrix[i][k + 3 - i], block[k]);
            take_away(product[k], -matrix[i][k + 3 - i], block[i]);
        }
        take_away(product[i], -matrix[i][3], block[i]);
    }
}

}  // namespace podwright
