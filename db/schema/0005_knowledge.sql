-- Version 5. Who made a change of the house, what it did to which rows, and what was merged in. The index of full-text search (no part of
-- the house), and whether it was true when that change was made.
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
