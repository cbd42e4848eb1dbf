CREATE TABLE "due_platforms" (
	"platform" text NOT NULL,
	"since" timestamp with time zone NOT NULL,
	CONSTRAINT "due_platforms_platform_since_pk" PRIMARY KEY("platform","since")
);
--> statement-breakpoint
UPDATE "touched_vehicles" SET "from_at" = least("from_at", "taken_from_at"), "to_at" = greatest("to_at", "taken_to_at");--> statement-breakpoint
ALTER TABLE "touched_vehicles" ALTER COLUMN "from_at" SET NOT NULL;--> statement-breakpoint
ALTER TABLE "touched_vehicles" ALTER COLUMN "to_at" SET NOT NULL;--> statement-breakpoint
ALTER TABLE "touched_vehicles" DROP COLUMN "taken_from_at";--> statement-breakpoint
ALTER TABLE "touched_vehicles" DROP COLUMN "taken_to_at";