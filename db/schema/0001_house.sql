-- Version 1. One table for each kind of row of a house; tables and columns have the names that
-- src/house gives them. References are checked when a transaction ends, so the order in which rows
-- are written does not matter. Rows stand in the order of entry (rowid).
PRAGMA application_id = 1332243827;

-- Every change of the house: its revision, when (UTC), and what was done.
CREATE TABLE "change" (
  "revision" INTEGER NOT NULL PRIMARY KEY,
  "at" TEXT NOT NULL,
  "what" TEXT NOT NULL
) STRICT;

CREATE TABLE "dwelling" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "system" TEXT NOT NULL CHECK ("system" IN ('split_phase_120_240', 'wye_120_208', 'wye_120_208_3', 'single_230'))
) STRICT;

CREATE TABLE "floor" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "building" TEXT NOT NULL,
  "level" INTEGER NOT NULL
) STRICT;

CREATE TABLE "room" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "floor" TEXT REFERENCES "floor" DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "left_cm" INTEGER NOT NULL,
  "top_cm" INTEGER NOT NULL,
  "width_cm" INTEGER NOT NULL,
  "depth_cm" INTEGER NOT NULL
) STRICT;

CREATE TABLE "walk" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "from_room" TEXT REFERENCES "room" DEFERRABLE INITIALLY DEFERRED,
  "to_room" TEXT REFERENCES "room" DEFERRABLE INITIALLY DEFERRED,
  "seconds" INTEGER NOT NULL
) STRICT;

CREATE TABLE "box" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "room" TEXT REFERENCES "room" DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL
) STRICT;

CREATE TABLE "source" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "kind" TEXT NOT NULL CHECK ("kind" IN ('generator', 'battery_inverter')),
  "output" TEXT NOT NULL CHECK ("output" IN ('full', 'one_leg', 'one_120_both_legs')),
  "running_watts" INTEGER NOT NULL,
  "starting_watts" INTEGER NOT NULL
) STRICT;

CREATE TABLE "panel" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "room" TEXT REFERENCES "room" DEFERRABLE INITIALLY DEFERRED,
  "spaces" INTEGER NOT NULL,
  "numbering" TEXT NOT NULL CHECK ("numbering" IN ('odd_left_even_right', 'sequential_down', 'single_column')),
  "supply" TEXT NOT NULL CHECK ("supply" IN ('utility', 'breaker', 'position', 'nothing_known')),
  "feeder" TEXT REFERENCES "breaker" DEFERRABLE INITIALLY DEFERRED,
  "position" TEXT REFERENCES "position" DEFERRABLE INITIALLY DEFERRED,
  "main_amps" INTEGER NOT NULL
) STRICT;

CREATE TABLE "breaker" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "panel" TEXT REFERENCES "panel" DEFERRABLE INITIALLY DEFERRED,
  "space" INTEGER NOT NULL,
  "half" TEXT NOT NULL CHECK ("half" IN ('whole', 'a', 'b')),
  "poles" INTEGER NOT NULL,
  "amps" INTEGER NOT NULL,
  "protection" TEXT NOT NULL CHECK ("protection" IN ('plain', 'gfci', 'afci', 'dual')),
  "tie" TEXT REFERENCES "breaker" DEFERRABLE INITIALLY DEFERRED,
  "old_label" TEXT NOT NULL,
  "open_rule" TEXT NOT NULL CHECK ("open_rule" IN ('free', 'briefly_alone', 'never')),
  "backfed_from" TEXT REFERENCES "source" DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE "circuit" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "breaker" TEXT REFERENCES "breaker" DEFERRABLE INITIALLY DEFERRED,
  "wire" TEXT NOT NULL,
  "material" TEXT NOT NULL CHECK ("material" IN ('not_known', 'copper', 'aluminium', 'copper_clad_aluminium')),
  "length_m" INTEGER NOT NULL,
  "multiwire" TEXT REFERENCES "circuit" DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE "transfer_device" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "room" TEXT REFERENCES "room" DEFERRABLE INITIALLY DEFERRED,
  "kind" TEXT NOT NULL CHECK ("kind" IN ('circuits', 'whole_house')),
  "source" TEXT REFERENCES "source" DEFERRABLE INITIALLY DEFERRED,
  "automatic" INTEGER NOT NULL CHECK ("automatic" IN (0, 1))
) STRICT;

CREATE TABLE "position" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "device" TEXT REFERENCES "transfer_device" DEFERRABLE INITIALLY DEFERRED,
  "number" INTEGER NOT NULL,
  "amps" INTEGER NOT NULL,
  "leg" INTEGER NOT NULL,
  "tie" TEXT REFERENCES "position" DEFERRABLE INITIALLY DEFERRED,
  "breaker" TEXT REFERENCES "breaker" DEFERRABLE INITIALLY DEFERRED,
  "pole" INTEGER NOT NULL
) STRICT;

CREATE TABLE "interlock" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "first" TEXT NOT NULL,
  "second" TEXT NOT NULL
) STRICT;

CREATE TABLE "device" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "kind" TEXT NOT NULL CHECK ("kind" IN ('wall_switch', 'gfci_receptacle', 'disconnect')),
  "name" TEXT NOT NULL,
  "behind" TEXT REFERENCES "device" DEFERRABLE INITIALLY DEFERRED,
  "at_point" TEXT REFERENCES "point" DEFERRABLE INITIALLY DEFERRED,
  "poles" INTEGER NOT NULL
) STRICT;

CREATE TABLE "handle" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "device" TEXT REFERENCES "device" DEFERRABLE INITIALLY DEFERRED,
  "room" TEXT REFERENCES "room" DEFERRABLE INITIALLY DEFERRED,
  "box" TEXT REFERENCES "box" DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL
) STRICT;

CREATE TABLE "point" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "room" TEXT REFERENCES "room" DEFERRABLE INITIALLY DEFERRED,
  "box" TEXT REFERENCES "box" DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "place" TEXT NOT NULL,
  "kind" TEXT NOT NULL CHECK ("kind" IN ('receptacle', 'light', 'appliance', 'alarm', 'fan', 'other')),
  "half" TEXT NOT NULL CHECK ("half" IN ('both', 'upper', 'lower')),
  "mate" TEXT REFERENCES "point" DEFERRABLE INITIALLY DEFERRED,
  "hots" INTEGER NOT NULL,
  "behind" TEXT REFERENCES "device" DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE "load" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "point" TEXT REFERENCES "point" DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "running_watts" INTEGER,
  "starting_watts" INTEGER,
  "duty_percent" INTEGER,
  "importance" TEXT NOT NULL CHECK ("importance" IN ('normal', 'low', 'high', 'life_safety')),
  "hurt_by_power_loss" INTEGER NOT NULL CHECK ("hurt_by_power_loss" IN (0, 1)),
  "basis" TEXT NOT NULL CHECK ("basis" IN ('guess', 'table', 'nameplate', 'measured'))
) STRICT;

CREATE TABLE "passing" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "box" TEXT REFERENCES "box" DEFERRABLE INITIALLY DEFERRED,
  "breaker" TEXT REFERENCES "breaker" DEFERRABLE INITIALLY DEFERRED,
  "pole" INTEGER NOT NULL
) STRICT;

CREATE TABLE "declared_feed" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "point" TEXT REFERENCES "point" DEFERRABLE INITIALLY DEFERRED,
  "device" TEXT REFERENCES "device" DEFERRABLE INITIALLY DEFERRED,
  "hot" INTEGER NOT NULL,
  "breaker" TEXT REFERENCES "breaker" DEFERRABLE INITIALLY DEFERRED,
  "pole" INTEGER NOT NULL,
  "who" TEXT NOT NULL,
  "at" TEXT NOT NULL
) STRICT;

CREATE TABLE "round" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "kind" TEXT NOT NULL CHECK ("kind" IN ('trace', 'daily_life', 'proof')),
  "at" TEXT NOT NULL,
  "who" TEXT NOT NULL,
  "finished" INTEGER NOT NULL CHECK ("finished" IN (0, 1))
) STRICT;

CREATE TABLE "opened" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "round" TEXT REFERENCES "round" DEFERRABLE INITIALLY DEFERRED,
  "handle" TEXT NOT NULL
) STRICT;

CREATE TABLE "observation" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "round" TEXT REFERENCES "round" DEFERRABLE INITIALLY DEFERRED,
  "point" TEXT REFERENCES "point" DEFERRABLE INITIALLY DEFERRED,
  "seen" TEXT NOT NULL CHECK ("seen" IN ('live', 'dead', 'not_sure', 'skipped')),
  "method" TEXT NOT NULL CHECK ("method" IN ('look', 'lamp', 'tester', 'non_contact', 'listening', 'other')),
  "at" TEXT NOT NULL,
  "withdrawn" INTEGER NOT NULL CHECK ("withdrawn" IN (0, 1))
) STRICT;

CREATE TABLE "note" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "about" TEXT NOT NULL,
  "text" TEXT NOT NULL,
  "is_private" INTEGER NOT NULL CHECK ("is_private" IN (0, 1)),
  "who" TEXT NOT NULL,
  "at" TEXT NOT NULL
) STRICT;

CREATE TABLE "setting" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "name" TEXT NOT NULL,
  "value" TEXT NOT NULL
) STRICT;

