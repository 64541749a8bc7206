// Prints one pose's numbers, one a line, name first; compiled natively and to WebAssembly (same_digits compares).
//
//   one_pose TRUCK_FILE
#include <cmath>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

#include <fmt/format.h>
#include <Eigen/LU>

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("usage: one_pose TRUCK_FILE\n", stderr);
    return 2;
  }
  std::ifstream file(argv[1], std::ios::binary);
  const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  std::fputs(fmt::format("bytes {}\n", text.size()).c_str(), stdout);

  Eigen::Matrix<double, 6, 6> a;
  Eigen::Matrix<double, 6, 1> b;
  for (int i = 0; i < 6; ++i) {
    b(i) = std::cos(0.4 * i);
    for (int k = 0; k < 6; ++k) a(i, k) = std::sin(1.0 + 1.7 * i + 0.3 * i * k);
  }
  const Eigen::Matrix<double, 6, 1> x = a.partialPivLu().solve(b);
  for (int i = 0; i < 6; ++i) std::fputs(fmt::format("x{} {:.17g}\n", i, x(i)).c_str(), stdout);
  return 0;
}
