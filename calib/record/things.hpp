#pragma once
// What the record keeps, as plain values. References name things by their ids.

#include <optional>
#include <string>

#include "record/database.hpp"

namespace fitwright::record {

struct Printer {
  std::string name;
  double bed_x_mm = 220, bed_y_mm = 220;
  double steps_x = 80, steps_y = 80, steps_z = 400, steps_e = 93;  ///< per mm, as noted when it was entered
  std::string drive;                                               ///< JSON by axis (drive.hpp); empty when not known
  std::string note;
};

struct Material {
  std::string name;  ///< "PLA"
  double density_g_cm3 = 1.24;
  std::string note;
};

struct Spool {
  Id material;
  std::string name;  ///< "PLA slate, batch 14"
  std::string colour, batch;
  std::optional<double> price_per_kg;
  std::string currency;
  std::string note;
};

struct Caliper {
  std::string name;
  double resolution_mm = 0.01;
  std::string serial;
  std::string note;
};

/// What a calibration is valid for. `state` is JSON of the settings when it was entered (correct/state.hpp); its steps
/// are those of the printer.
struct Setup {
  std::string name;
  Id printer, spool;
  double nozzle_mm = 0.4;
  std::optional<double> nozzle_c, bed_c;
  std::string state;
  std::string note;
};

/// How far the machine really went, measured on the machine itself.
struct Travelled {
  Id printer;
  std::string axis;  ///< "x", "y", "z"
  double commanded_mm = 0, travelled_mm = 0;
  std::optional<double> u_mm;
};

/// A coupon that was made. `features` is its features.csv, so that readings stay readable whatever becomes of the
/// design; `parameters` a JSON object of numbers.
struct MadeCoupon {
  std::string design, parameters, features, file_hash;
  std::optional<double> grams;
  std::string note;
};

/// One printed specimen. Copies with the same `print` number of a setup were printed together: they share how the print
/// came out.
struct Copy {
  Id setup, coupon;
  int print = 1;
  int turned_deg = 0;
  std::string state;       ///< JSON: the settings it was printed with
  std::string printed_on;  ///< date, "2026-11-25"
  std::string note;
};

/// One evening with one caliper.
struct Session {
  Id setup, caliper;  ///< either may be empty
  std::string began;  ///< UTC
  std::optional<double> room_c;
  std::string note;
};

struct StoredReading {
  Id copy, session;
  std::string feature_id;
  int repeat = 1;
  std::optional<double> reading_mm;  ///< empty unless `standing` is "read"
  std::string standing = "read";     ///< or "skipped", "damaged"
  double step_mm = 0.1;
  std::optional<double> part_c;
  std::string note;
};

/// A reading of closed jaws, a gauge or a ring. Kept per caliper and session: its log.
struct SteelReading {
  Id caliper, session;
  std::string kind;  ///< "zero", "gauge", "ring"
  std::string feature_id;
  double true_mm = 0;
  int repeat = 1;
  double reading_mm = 0;
  std::string note;
};

struct StoredEstimate {
  Id setup;
  std::string input_hash;  ///< of the readings as CSV, state and options
  std::string copies;      ///< JSON array of copy ids
  std::string state;       ///< JSON: printed with
  std::string options;     ///< JSON
  std::string method, program;
  std::string result;  ///< JSON of the estimate, covariance included
};

struct StoredCorrection {
  Id setup, estimate;
  std::string origin = "estimate";  ///< or "re-expression", "by hand"
  std::string policy;
  std::string before, after;  ///< JSON states
  std::string detail;         ///< JSON of the whole correction
};

/// A step in the life of a correction. `at` of its row says when.
struct CorrectionEvent {
  Id correction;
  std::string what;  ///< "proposed", "applied", "proved", "withdrawn"
  std::string reason;
  std::string detail;  ///< JSON: for a proof the predicted and measured lengths; else empty
};

/// Words or a picture about any thing.
struct Remark {
  Id about;
  std::string words;
  std::string picture;  ///< path of a file; the record holds no picture itself
  std::string picture_hash;
};

/// How a graded place felt: 0 will not enter ... 4 rattles.
struct Trial {
  Id setup, copy;
  std::string feature_id;
  double clearance_mm = 0;
  int grade = 0;
  std::optional<double> measured_clearance_mm, diameter_mm;
  std::string note;
};

/// A size that was drawn for a fit.
struct DrawnSize {
  Id setup;
  std::string kind;
  double nominal_mm = 0;
  std::string fit;
  double drawn_mm = 0;
  std::string note;
};

}  // namespace fitwright::record
