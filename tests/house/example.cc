#include "example.h"

namespace ohmstead {

namespace {

/// Ids that are the same in every run: `serial` 1, 2, 3, ...
template <class Row>
Id<Row> id(std::uint64_t serial) {
  return Id<Row>{serial};
}

void add_places(House& h) {
  h.dwelling = {.id = id<Dwelling>(1), .name = "Example", .system = VoltageSystem::split_phase_120_240};
  h.floors = {{.id = id<Floor>(10), .name = "Ground"},
              {.id = id<Floor>(11), .name = "Upper", .building = "", .level = 1},
              {.id = id<Floor>(12), .name = "Workshop floor", .building = "Workshop"}};
  h.rooms = {{.id = id<Room>(20), .floor = id<Floor>(10), .name = "Kitchen", .width_cm = 400, .depth_cm = 400},
             {.id = id<Room>(21), .floor = id<Floor>(10), .name = "Hall", .left_cm = 410, .width_cm = 200, .depth_cm = 400},
             {.id = id<Room>(22), .floor = id<Floor>(11), .name = "Bedroom"},
             {.id = id<Room>(23), .floor = id<Floor>(12), .name = "Shop"}};
  h.walks = {{.id = id<Walk>(25), .from = id<Room>(21), .to = id<Room>(23), .seconds = 60}};
  h.boxes = {{.id = id<Box>(30), .room = id<Room>(20), .name = "sink box"}};
}

void add_panels(House& h) {
  h.sources = {{.id = id<Source>(40), .name = "Generator", .running_watts = 3500, .starting_watts = 4500}};
  h.panels = {{.id = id<Panel>(50), .name = "Main", .room = id<Room>(21), .spaces = 12, .supply = Supply::utility, .main_amps = 100},
              {.id = id<Panel>(51), .name = "Shop", .room = id<Room>(23), .spaces = 6, .supply = Supply::breaker,
               .feeder = id<Breaker>(62)}};
  const auto main = id<Panel>(50);
  h.breakers = {{.id = id<Breaker>(60), .panel = main, .space = 1, .amps = 20, .tie = id<Breaker>(60)},
                {.id = id<Breaker>(61), .panel = main, .space = 3, .amps = 20, .tie = id<Breaker>(60)},
                {.id = id<Breaker>(62), .panel = main, .space = 2, .poles = 2, .amps = 60},
                {.id = id<Breaker>(63), .panel = main, .space = 6, .poles = 2, .amps = 30, .backfed_from = id<Source>(40)},
                {.id = id<Breaker>(64), .panel = main, .space = 10, .half = Half::a, .amps = 15},
                {.id = id<Breaker>(65), .panel = main, .space = 10, .half = Half::b, .amps = 15},
                {.id = id<Breaker>(66), .panel = id<Panel>(51), .space = 1, .poles = 2, .amps = 20}};
  h.circuits = {{.id = id<Circuit>(70), .breaker = id<Breaker>(60), .wire = "12", .multiwire = id<Circuit>(70)},
                {.id = id<Circuit>(71), .breaker = id<Breaker>(61), .wire = "12", .multiwire = id<Circuit>(70)}};
}

void add_transfer(House& h) {
  h.transfer_devices = {{.id = id<TransferDevice>(80), .name = "Transfer", .source = id<Source>(40)}};
  const auto device = id<TransferDevice>(80);
  h.positions = {{.id = id<Position>(81), .device = device, .number = 1, .amps = 20, .leg = 1, .tie = id<Position>(81),
                  .breaker = id<Breaker>(66), .pole = 1},
                 {.id = id<Position>(82), .device = device, .number = 2, .amps = 20, .leg = 2, .tie = id<Position>(81),
                  .breaker = id<Breaker>(66), .pole = 2},
                 {.id = id<Position>(83), .device = device, .number = 3, .amps = 15, .breaker = id<Breaker>(64)}};
  h.interlocks = {{.id = id<Interlock>(85), .first = {HandleKind::main, 50}, .second = {HandleKind::breaker, 63}}};
}

void add_points(House& h) {
  const auto kitchen = id<Room>(20), hall = id<Room>(21);
  h.devices = {{.id = id<Device>(90), .kind = DeviceKind::gfci_receptacle, .name = "sink GFCI", .at_point = id<Point>(100)},
               {.id = id<Device>(91), .kind = DeviceKind::wall_switch, .name = "hall 3-way"},
               {.id = id<Device>(92), .kind = DeviceKind::disconnect, .name = "pump disconnect", .poles = 2}};
  h.handles = {{.id = id<Handle>(95), .device = id<Device>(90), .room = kitchen, .box = id<Box>(30)},
               {.id = id<Handle>(96), .device = id<Device>(91), .room = hall},
               {.id = id<Handle>(97), .device = id<Device>(91), .room = kitchen},
               {.id = id<Handle>(98), .device = id<Device>(92), .room = id<Room>(23)}};
  h.points = {{.id = id<Point>(100), .room = kitchen, .box = id<Box>(30), .name = "GFCI receptacle", .behind = id<Device>(90)},
              {.id = id<Point>(101), .room = kitchen, .name = "receptacle 1", .behind = id<Device>(90)},
              {.id = id<Point>(102), .room = hall, .name = "light", .kind = PointKind::light, .behind = id<Device>(91)},
              {.id = id<Point>(103), .room = hall, .name = "receptacle upper", .half = ReceptacleHalf::upper, .mate = id<Point>(104)},
              {.id = id<Point>(104), .room = hall, .name = "receptacle lower", .half = ReceptacleHalf::lower, .mate = id<Point>(103)},
              {.id = id<Point>(105), .room = id<Room>(23), .name = "pump", .kind = PointKind::appliance, .hots = 2, .behind = id<Device>(92)}};
  h.loads = {{.id = id<Load>(110), .point = id<Point>(105), .name = "well pump", .running_watts = 750, .starting_watts = 2200, .duty_percent = 30}};
  h.passings = {{.id = id<Passing>(115), .box = id<Box>(30), .breaker = id<Breaker>(62), .pole = 2}};
}

void add_evidence(House& h) {
  h.declared_feeds = {{.id = id<DeclaredFeed>(120), .point = id<Point>(103), .breaker = id<Breaker>(60)},
                      {.id = id<DeclaredFeed>(121), .device = id<Device>(92), .hot = 2, .breaker = id<Breaker>(66), .pole = 2}};
  h.rounds = {{.id = id<Round>(130), .at = "2026-11-25T09:30:00Z", .finished = true}};
  h.opened = {{.id = id<Opened>(131), .round = id<Round>(130), .handle = {HandleKind::breaker, 60}}};
  h.observations = {{.id = id<Observation>(132), .round = id<Round>(130), .point = id<Point>(103), .seen = Seen::dead, .at = "2026-11-25T09:31:00Z"}};
  h.photos = {{.id = id<Photo>(141), .about = {ThingKind::panel, 50}, .caption = "before it was opened", .picture = std::string(64, 'a'),
               .small = std::string(64, 'b'), .width = 1600, .height = 1200, .bytes = 250'000, .at = "2026-11-25T09:30:00Z"}};
  h.notes = {{.id = id<Note>(140), .about = {ThingKind::room, 20}, .text = "the box at the sink is crowded"}};
  h.settings = {{.id = id<Setting>(150), .name = "pocket_width_mm", .value = "140"}};
}

void add_outage(House& h) {
  h.planned = {{.id = id<Planned>(160), .breaker = id<Breaker>(64), .position = id<Position>(83)},
               {.id = id<Planned>(161), .breaker = id<Breaker>(65)}};
  h.pins = {{.id = id<Pin>(165), .breaker = id<Breaker>(64), .position = id<Position>(83)}};
  h.ticks = {{.id = id<Tick>(170), .step = "before.permit", .at = "2026-11-25T10:00:00Z"}};
  h.outage_events = {{.id = id<OutageEvent>(175), .kind = OutageEventKind::utility_lost, .at = "2026-11-26T18:00:00Z"},
                     {.id = id<OutageEvent>(176), .kind = OutageEventKind::moved, .at = "2026-11-26T18:02:00Z",
                      .handle = {HandleKind::position, 83}, .stands = 2}};
  h.printed = {{.id = id<Printed>(177), .item = "paper:wall", .name = "sheet for the wall", .words = "[\"paper\",\"wall\"]",
                .at = "2026-11-26T19:00:00Z", .revision = 3, .code = "7Q2K9D"}};
  h.trips = {{.id = id<Trip>(180), .handle = {HandleKind::breaker, 60}, .at = "2026-11-25T09:30:00Z", .cause = "heater", .round = id<Round>(130)}};
  h.diagnoses = {{.id = id<Diagnosis>(181), .at = "2026-11-26T20:00:00Z", .before = Before::storm}};
  h.diagnosis_looks = {{.id = id<DiagnosisLook>(182), .diagnosis = id<Diagnosis>(181), .what = LookAt::complaint, .point = id<Point>(103), .saw = LookSaw::dead},
                       {.id = id<DiagnosisLook>(183), .diagnosis = id<Diagnosis>(181), .what = LookAt::handle, .handle = {HandleKind::breaker, 60}, .saw = LookSaw::tripped}};
}

}  // namespace

House example_house() {
  House house;
  add_places(house);
  add_panels(house);
  add_transfer(house);
  add_points(house);
  add_evidence(house);
  add_outage(house);
  return house;
}

}  // namespace ohmstead
