// Every part is painted, at several widths, in several states, and is neither blank nor cut.

#include <wx/bitmap.h>
#include <wx/dcmemory.h>
#include <wx/image.h>

#include <catch2/catch.hpp>
#include <functional>
#include <set>

#include "window/bench.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

wxImage painted(int width, int height, const std::function<void(wxDC&)>& paint) {
  wxBitmap bitmap(width, height, 24);
  {
    wxMemoryDC dc(bitmap);
    paint(dc);
  }
  return bitmap.ConvertToImage();
}

/// Share of pixels that are not the colour of the top left corner.
double ink(const wxImage& image) {
  const unsigned char* data = image.GetData();
  long inked = 0;
  const long pixels = static_cast<long>(image.GetWidth()) * image.GetHeight();
  for (long i = 0; i < pixels; ++i)
    inked += data[3 * i] != data[0] || data[3 * i + 1] != data[1] || data[3 * i + 2] != data[2];
  return static_cast<double>(inked) / static_cast<double>(pixels);
}

std::size_t colours(const wxImage& image) {
  std::set<int> seen;
  const unsigned char* data = image.GetData();
  for (long i = 0; i < static_cast<long>(image.GetWidth()) * image.GetHeight(); ++i)
    seen.insert(data[3 * i] << 16 | data[3 * i + 1] << 8 | data[3 * i + 2]);
  return seen.size();
}

void check_page(Page& page, int width) {
  const int height = page.height_at(width);
  INFO("width " << width << ", height " << height);
  REQUIRE(height > 40);
  REQUIRE(height < 20000);
  const wxImage image = painted(width, height, [&](wxDC& dc) { page.paint_whole(dc, width); });
  CHECK(ink(image) > 0.01);
  // Nothing reaches into the right margin: neither a word nor a number is cut there.
  for (int y = 0; y < image.GetHeight(); ++y)
    if (image.GetRed(width - 1, y) != image.GetRed(0, 0)) {
      INFO("ink at the right edge, line " << y);
      CHECK(false);
      break;
    }
}

}  // namespace

TEST_CASE("every page paints its content, and fits where it is narrow") {
  Frame& frame = fresh_frame();
  REQUIRE(settled(frame));
  for (const int width : {560, 640, 1000}) {
    check_page(frame.understanding().findings(), width);
    check_page(frame.understanding().estimates(), width);
    check_page(frame.correcting().corrections().page(), width);
  }
}

TEST_CASE("plots are painted with their colours, at any size") {
  Frame& frame = fresh_frame();
  REQUIRE(settled(frame));
  for (PlotPanel* plot : {&frame.understanding().lengths(), &frame.understanding().rounds()})
    for (const wxSize size : {wxSize(480, 220), wxSize(640, 300), wxSize(1200, 700), wxSize(60, 40)}) {
      const wxImage image = painted(size.x, size.y, [&](wxDC& dc) { plot->paint(dc, size); });
      INFO(size.x << " x " << size.y);
      CHECK(ink(image) > 0.005);
      if (size.x >= 480) CHECK(colours(image) > 20);
    }
}

TEST_CASE("header and reading in hand are painted") {
  Frame& frame = fresh_frame();
  REQUIRE(settled(frame));
  CHECK(ink(painted(640, 110, [&](wxDC& dc) { frame.header().paint(dc, {640, 110}); })) > 0.005);
  for (const wxSize size : {wxSize(400, 520), wxSize(640, 700)})
    CHECK(ink(painted(size.x, size.y, [&](wxDC& dc) { frame.measuring().hand().paint(dc, size); })) > 0.005);
}

TEST_CASE("empty contents paint what will stand there") {
  Frame& frame = fresh_frame();
  frame.put_on_bench(Document(Content{}));
  REQUIRE(settled(frame));
  CHECK_FALSE(frame.measuring().field().IsShown());
  CHECK(ink(painted(480, 300, [&](wxDC& dc) { frame.measuring().hand().paint(dc, {480, 300}); })) > 0.005);
  for (PlotPanel* plot : {&frame.understanding().lengths(), &frame.understanding().rounds()})
    CHECK(ink(painted(640, 300, [&](wxDC& dc) { plot->paint(dc, {640, 300}); })) > 0.001);
  check_page(frame.understanding().findings(), 640);
  check_page(frame.correcting().corrections().page(), 640);
}
