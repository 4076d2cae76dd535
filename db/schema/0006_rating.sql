-- Version 6. What is stamped on the face of a receptacle.
ALTER TABLE "point" ADD COLUMN "rating_amps" INTEGER NOT NULL DEFAULT 0;
