-- Version 5. Who made a change of the house.
ALTER TABLE "change" ADD COLUMN "who" TEXT NOT NULL DEFAULT '';
