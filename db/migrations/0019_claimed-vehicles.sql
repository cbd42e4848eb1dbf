CREATE TABLE "claimed_vehicles" (
	"vehicle" integer PRIMARY KEY NOT NULL,
	"from_at" timestamp with time zone,
	"to_at" timestamp with time zone,
	"since" timestamp with time zone NOT NULL,
	"next" text NOT NULL,
	"claimed_by" integer
);
--> statement-breakpoint
ALTER TABLE "stretch_totals" ADD COLUMN "digest" text;--> statement-breakpoint
ALTER TABLE "touched_vehicles" ADD COLUMN "since" timestamp with time zone DEFAULT now() NOT NULL;