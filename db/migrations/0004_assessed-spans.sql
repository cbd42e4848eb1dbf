ALTER TABLE "touched_vehicles" ALTER COLUMN "from_at" DROP NOT NULL;--> statement-breakpoint
ALTER TABLE "touched_vehicles" ALTER COLUMN "to_at" DROP NOT NULL;--> statement-breakpoint
ALTER TABLE "touched_vehicles" ADD COLUMN "taken_from_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "touched_vehicles" ADD COLUMN "taken_to_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "touched_vehicles" DROP COLUMN "version";