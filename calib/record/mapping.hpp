#pragma once
// Which table and columns each thing is kept in: one list a thing, for writing, reading and the check of the schema.

#include "record/things.hpp"

namespace fitwright::record {

template <class T>
struct Mapping;

#define FW_MAPPING(Type, Table, ...)            \
  template <>                                   \
  struct Mapping<Type> {                        \
    static constexpr const char* table = Table; \
    template <class Value, class Visit>         \
    static void visit(Value& v, Visit&& f) {    \
      __VA_ARGS__                               \
    }                                           \
  }

FW_MAPPING(Printer, "printer", f("name", v.name); f("bed_x_mm", v.bed_x_mm); f("bed_y_mm", v.bed_y_mm);
           f("steps_x", v.steps_x); f("steps_y", v.steps_y); f("steps_z", v.steps_z); f("steps_e", v.steps_e);
           f("drive", v.drive); f("note", v.note););
FW_MAPPING(Material, "material", f("name", v.name); f("density_g_cm3", v.density_g_cm3); f("note", v.note););
FW_MAPPING(Spool, "spool", f("material", v.material); f("name", v.name); f("colour", v.colour); f("batch", v.batch);
           f("price_per_kg", v.price_per_kg); f("currency", v.currency); f("note", v.note););
FW_MAPPING(Caliper, "caliper", f("name", v.name); f("resolution_mm", v.resolution_mm); f("serial", v.serial);
           f("note", v.note););
FW_MAPPING(Setup, "setup", f("name", v.name); f("printer", v.printer); f("spool", v.spool); f("nozzle_mm", v.nozzle_mm);
           f("nozzle_c", v.nozzle_c); f("bed_c", v.bed_c); f("state", v.state); f("note", v.note););
FW_MAPPING(Travelled, "travel", f("printer", v.printer); f("axis", v.axis); f("commanded_mm", v.commanded_mm);
           f("travelled_mm", v.travelled_mm); f("u_mm", v.u_mm););
FW_MAPPING(MadeCoupon, "coupon", f("design", v.design); f("parameters", v.parameters); f("features", v.features);
           f("file_hash", v.file_hash); f("grams", v.grams); f("note", v.note););
FW_MAPPING(Copy, "copy", f("setup", v.setup); f("coupon", v.coupon); f("print", v.print); f("turned_deg", v.turned_deg);
           f("state", v.state); f("printed_on", v.printed_on); f("note", v.note););
FW_MAPPING(Session, "session", f("setup", v.setup); f("caliper", v.caliper); f("began", v.began); f("room_c", v.room_c);
           f("note", v.note););
FW_MAPPING(StoredReading, "reading", f("copy", v.copy); f("session", v.session); f("feature_id", v.feature_id);
           f("repeat", v.repeat); f("reading_mm", v.reading_mm); f("standing", v.standing); f("step_mm", v.step_mm);
           f("part_c", v.part_c); f("note", v.note););
FW_MAPPING(SteelReading, "steel", f("caliper", v.caliper); f("session", v.session); f("kind", v.kind);
           f("feature_id", v.feature_id); f("true_mm", v.true_mm); f("repeat", v.repeat); f("reading_mm", v.reading_mm);
           f("note", v.note););
FW_MAPPING(StoredEstimate, "estimate", f("setup", v.setup); f("input_hash", v.input_hash); f("copies", v.copies);
           f("state", v.state); f("options", v.options); f("method", v.method); f("program", v.program);
           f("result", v.result););
FW_MAPPING(StoredCorrection, "correction", f("setup", v.setup); f("estimate", v.estimate); f("origin", v.origin);
           f("policy", v.policy); f("before", v.before); f("after", v.after); f("detail", v.detail););
FW_MAPPING(CorrectionEvent, "correction_event", f("correction", v.correction); f("what", v.what); f("reason", v.reason);
           f("detail", v.detail););
FW_MAPPING(Remark, "remark", f("about", v.about); f("words", v.words); f("picture", v.picture);
           f("picture_hash", v.picture_hash););
FW_MAPPING(Trial, "trial", f("setup", v.setup); f("copy", v.copy); f("feature_id", v.feature_id);
           f("clearance_mm", v.clearance_mm); f("grade", v.grade); f("measured_clearance_mm", v.measured_clearance_mm);
           f("diameter_mm", v.diameter_mm); f("note", v.note););
FW_MAPPING(DrawnSize, "drawn_size", f("setup", v.setup); f("kind", v.kind); f("nominal_mm", v.nominal_mm);
           f("fit", v.fit); f("drawn_mm", v.drawn_mm); f("note", v.note););

#undef FW_MAPPING

}  // namespace fitwright::record
