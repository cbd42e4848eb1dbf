ALTER TABLE "bookings" ADD COLUMN "hours" double precision;--> statement-breakpoint
UPDATE "bookings" SET "hours" = EXTRACT(EPOCH FROM "ends_at" - "starts_at") / 3600 WHERE "starts_at" IS NOT NULL;
