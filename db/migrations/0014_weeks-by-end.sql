-- Weeks of use are made anew: a stretch now stands in the week in which it ended (db/queries/make-life-weeks.ts).
UPDATE "life_weeks" SET "version" = "version" + 1, "weeks" = NULL;
