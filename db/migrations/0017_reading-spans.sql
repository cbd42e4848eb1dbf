CREATE TABLE "reading_spans" (
	"vehicle" integer PRIMARY KEY NOT NULL,
	"first_at" timestamp with time zone NOT NULL,
	"last_at" timestamp with time zone NOT NULL,
	"odometer_km" double precision NOT NULL
);
--> statement-breakpoint
-- Each delivery changes rows: with room in their pages they stay where they are, and the index as it is.
ALTER TABLE "reading_spans" SET (fillfactor = 50);--> statement-breakpoint
INSERT INTO "reading_spans" SELECT "key", "first_reading_at", "last_reading_at", "odometer_km" FROM "vehicles"
	WHERE "first_reading_at" IS NOT NULL AND "last_reading_at" IS NOT NULL AND "odometer_km" IS NOT NULL;--> statement-breakpoint
ALTER TABLE "vehicles" DROP COLUMN "first_reading_at";--> statement-breakpoint
ALTER TABLE "vehicles" DROP COLUMN "last_reading_at";--> statement-breakpoint
ALTER TABLE "vehicles" DROP COLUMN "odometer_km";