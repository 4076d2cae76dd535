-- Version 2. What planning for an outage needs: more about sources and loads, the plan that was kept, pins,
-- ticks of the worksheet, the outage log, and where handles stood during a proof.
ALTER TABLE "source" ADD COLUMN "leg_watts" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "source" ADD COLUMN "inlet_amps" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "source" ADD COLUMN "cord_amps" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "source" ADD COLUMN "neutral" TEXT NOT NULL DEFAULT 'not_known' CHECK ("neutral" IN ('not_known', 'bonded', 'floating'));
ALTER TABLE "source" ADD COLUMN "fuel" TEXT NOT NULL DEFAULT 'not_known' CHECK ("fuel" IN ('not_known', 'gasoline', 'diesel', 'propane', 'natural_gas'));
ALTER TABLE "source" ADD COLUMN "tank_ml" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "source" ADD COLUMN "use_25_ml_h" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "source" ADD COLUMN "use_50_ml_h" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "source" ADD COLUMN "use_75_ml_h" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "source" ADD COLUMN "use_100_ml_h" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "source" ADD COLUMN "capacity_wh" INTEGER NOT NULL DEFAULT 0;

ALTER TABLE "load" ADD COLUMN "use" TEXT NOT NULL DEFAULT 'not_said' CHECK ("use" IN ('not_said', 'together', 'on_demand', 'not_wanted'));
ALTER TABLE "load" ADD COLUMN "continuous" INTEGER NOT NULL DEFAULT 0 CHECK ("continuous" IN (0, 1));
ALTER TABLE "load" ADD COLUMN "starts_itself" INTEGER NOT NULL DEFAULT 0 CHECK ("starts_itself" IN (0, 1));
ALTER TABLE "load" ADD COLUMN "power_factor_percent" INTEGER;
ALTER TABLE "load" ADD COLUMN "horsepower_hundredths" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "load" ADD COLUMN "code_letter" TEXT NOT NULL DEFAULT '';
ALTER TABLE "load" ADD COLUMN "full_load_deciamps" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "load" ADD COLUMN "longest_off_min" INTEGER;

ALTER TABLE "round" ADD COLUMN "source" TEXT REFERENCES "source" DEFERRABLE INITIALLY DEFERRED;
ALTER TABLE "round" ADD COLUMN "utility" INTEGER NOT NULL DEFAULT 1 CHECK ("utility" IN (0, 1));
ALTER TABLE "opened" ADD COLUMN "stands" INTEGER NOT NULL DEFAULT 0;

CREATE TABLE "planned" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "breaker" TEXT REFERENCES "breaker" DEFERRABLE INITIALLY DEFERRED,
  "pole" INTEGER NOT NULL,
  "position" TEXT REFERENCES "position" DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE "pin" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "breaker" TEXT REFERENCES "breaker" DEFERRABLE INITIALLY DEFERRED,
  "never" INTEGER NOT NULL CHECK ("never" IN (0, 1)),
  "position" TEXT REFERENCES "position" DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE "tick" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "step" TEXT NOT NULL,
  "at" TEXT NOT NULL,
  "who" TEXT NOT NULL
) STRICT;

CREATE TABLE "outage_event" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "kind" TEXT NOT NULL CHECK ("kind" IN ('utility_lost', 'utility_back', 'ended', 'source_started', 'source_stopped',
                                         'moved', 'load_on', 'load_off', 'overload', 'note')),
  "at" TEXT NOT NULL,
  "who" TEXT NOT NULL,
  "source" TEXT REFERENCES "source" DEFERRABLE INITIALLY DEFERRED,
  "handle" TEXT NOT NULL,
  "stands" INTEGER NOT NULL,
  "load" TEXT REFERENCES "load" DEFERRABLE INITIALLY DEFERRED,
  "point" TEXT REFERENCES "point" DEFERRABLE INITIALLY DEFERRED,
  "running_watts" INTEGER NOT NULL,
  "starting_watts" INTEGER NOT NULL,
  "text" TEXT NOT NULL,
  "withdrawn" INTEGER NOT NULL CHECK ("withdrawn" IN (0, 1))
) STRICT;

