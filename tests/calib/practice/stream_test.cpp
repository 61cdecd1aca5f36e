#include "practice/stream.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

using namespace fitwright;

// Values of the independent implementation named in tests/reference/practice/README.md, all digits.
TEST_CASE("A stream gives the numbers of the independent implementation") {
  Stream stream(1, "F|X10");
  CHECK(stream.uniform() == 0.49765115766489415);
  CHECK(stream.uniform() == 0.4430625516289501);
  CHECK(stream.uniform() == 0.1353028792587368);
  CHECK(stream_uniform(1, "F|X10") == 0.49765115766489415);
  CHECK(stream_normal(1, "F|X10") == Approx(-1.1066050522534945).epsilon(1e-15));
}

TEST_CASE("Streams of different labels and seeds differ") {
  CHECK(stream_uniform(1, "F|X10") != stream_uniform(1, "F|X20"));
  CHECK(stream_uniform(1, "F|X10") != stream_uniform(2, "F|X10"));
}

TEST_CASE("First normals of many labels are standard normal") {
  const int n = 40000;
  double sum = 0, squares = 0;
  int beyond = 0;
  for (int i = 0; i < n; ++i) {
    const double z = stream_normal(7, "label " + std::to_string(i));
    sum += z;
    squares += z * z;
    beyond += std::abs(z) > 1.959964;
  }
  // Four standard errors: 1/sqrt(n), sqrt(2/n), sqrt(.05 .95/n).
  CHECK(std::abs(sum / n) < 4 / std::sqrt(n));
  CHECK(std::abs(squares / n - 1) < 4 * std::sqrt(2.0 / n));
  CHECK(std::abs(static_cast<double>(beyond) / n - 0.05) < 4 * std::sqrt(.05 * .95 / n));
}
