-- Version 5. Who made a change of the house, what it did to which rows, and what was merged in. The index of full-text search (no part of
-- the house), and whether it was true when that change was made.
-- Breakers that tripped; sessions that ask why something is dead, and their looks. Photos of anything, and the bytes of
-- their pictures by their SHA-256.
ALTER TABLE "change" ADD COLUMN "who" TEXT NOT NULL DEFAULT '';
CREATE VIRTUAL TABLE "search" USING fts5("name", "body", tokenize = 'unicode61 remove_diacritics 2');
ALTER TABLE "change" ADD COLUMN "indexed" INTEGER NOT NULL DEFAULT 0;

-- The same in every copy of the file; no other change has it. Empty: made before version 5.
ALTER TABLE "change" ADD COLUMN "mark" TEXT NOT NULL DEFAULT '';
-- Revisions that it took back, or made again, in this order, with spaces between.
ALTER TABLE "change" ADD COLUMN "undoes" TEXT NOT NULL DEFAULT '';
ALTER TABLE "change" ADD COLUMN "redoes" TEXT NOT NULL DEFAULT '';
-- Bytes of the texts below, of all changes up to this one: tells what is too old to be kept.
ALTER TABLE "change" ADD COLUMN "kept_bytes" INTEGER NOT NULL DEFAULT 0;

-- What a change did, row by row.
CREATE TABLE "row_change" (
  "revision" INTEGER NOT NULL,
  "number" INTEGER NOT NULL,
  "table_name" TEXT NOT NULL,
  "row" TEXT NOT NULL,
  "text" TEXT NOT NULL,
  PRIMARY KEY ("revision", "number")
) STRICT, WITHOUT ROWID;

-- Marks of the changes that came with a merge; number 0 is the last change of the file that was merged in.
CREATE TABLE "merged_mark" (
  "revision" INTEGER NOT NULL,
  "number" INTEGER NOT NULL,
  "mark" TEXT NOT NULL,
  PRIMARY KEY ("revision", "number")
) STRICT, WITHOUT ROWID;

-- What led from the house after the merge to the house that was merged in.
CREATE TABLE "merged_row" (
  "revision" INTEGER NOT NULL,
  "number" INTEGER NOT NULL,
  "table_name" TEXT NOT NULL,
  "row" TEXT NOT NULL,
  "text" TEXT NOT NULL,
  PRIMARY KEY ("revision", "number")
) STRICT, WITHOUT ROWID;

CREATE TABLE "trip" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "handle" TEXT NOT NULL,
  "at" TEXT NOT NULL,
  "who" TEXT NOT NULL,
  "cause" TEXT NOT NULL,
  "round" TEXT REFERENCES "round" DEFERRABLE INITIALLY DEFERRED,
  "withdrawn" INTEGER NOT NULL CHECK ("withdrawn" IN (0, 1))
) STRICT;

CREATE TABLE "diagnosis" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "at" TEXT NOT NULL,
  "who" TEXT NOT NULL,
  "before" TEXT NOT NULL CHECK ("before" IN ('not_known', 'storm', 'appliance_started', 'work_done', 'to_backup')),
  "source" TEXT REFERENCES "source" DEFERRABLE INITIALLY DEFERRED,
  "meter" INTEGER NOT NULL CHECK ("meter" IN (0, 1)),
  "finished" INTEGER NOT NULL CHECK ("finished" IN (0, 1)),
  "came_to" TEXT NOT NULL
) STRICT;

CREATE TABLE "diagnosis_look" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "diagnosis" TEXT REFERENCES "diagnosis" DEFERRABLE INITIALLY DEFERRED,
  "what" TEXT NOT NULL CHECK ("what" IN ('complaint', 'point', 'other_lamp', 'handle', 'neighbors', 'source', 'caution', 'cure')),
  "point" TEXT REFERENCES "point" DEFERRABLE INITIALLY DEFERRED,
  "handle" TEXT NOT NULL,
  "source" TEXT REFERENCES "source" DEFERRABLE INITIALLY DEFERRED,
  "saw" TEXT NOT NULL CHECK ("saw" IN ('dead', 'dim', 'live', 'bright', 'off', 'tripped', 'on', 'backup', 'yes', 'no',
                                       'works', 'still_dead', 'trips_again', 'done', 'not_sure', 'skip')),
  "volts" INTEGER NOT NULL,
  "at" TEXT NOT NULL,
  "withdrawn" INTEGER NOT NULL CHECK ("withdrawn" IN (0, 1))
) STRICT;

CREATE TABLE "photo" (
  "id" TEXT NOT NULL PRIMARY KEY,
  "about" TEXT NOT NULL,
  "caption" TEXT NOT NULL,
  "picture" TEXT NOT NULL,
  "small" TEXT NOT NULL,
  "width" INTEGER NOT NULL,
  "height" INTEGER NOT NULL,
  "bytes" INTEGER NOT NULL,
  "is_private" INTEGER NOT NULL CHECK ("is_private" IN (0, 1)),
  "who" TEXT NOT NULL,
  "at" TEXT NOT NULL
) STRICT;
-- No part of the house, so that reading it stays cheap. What no photo names is kept for taking back, until it is forgotten on purpose.
CREATE TABLE "picture" (
  "sha256" TEXT NOT NULL PRIMARY KEY,
  "jpeg" BLOB NOT NULL
) STRICT;
