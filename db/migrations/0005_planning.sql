CREATE TABLE "fleet_settings" (
	"name" text PRIMARY KEY NOT NULL,
	"value" jsonb NOT NULL,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "bookings" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"vehicle" integer NOT NULL,
	"state" text NOT NULL,
	"depot" text NOT NULL,
	"bay" integer,
	"day" date,
	"starts_at" timestamp with time zone,
	"ends_at" timestamp with time zone,
	"note" text,
	"reason" text,
	"version" integer DEFAULT 1 NOT NULL,
	"created_at" timestamp with time zone NOT NULL,
	"created_by" text NOT NULL,
	"changed_at" timestamp with time zone NOT NULL,
	"changed_by" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "depot_feeds" (
	"depot" text PRIMARY KEY NOT NULL,
	"digest" "bytea" NOT NULL,
	"created_at" timestamp with time zone NOT NULL,
	"created_by" text NOT NULL,
	"used_at" timestamp with time zone,
	CONSTRAINT "depot_feeds_digest_unique" UNIQUE("digest")
);
--> statement-breakpoint
CREATE TABLE "saved_filters" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"person" text NOT NULL,
	"name" text NOT NULL,
	"search" text NOT NULL,
	"created_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "sent_digests" (
	"person" text NOT NULL,
	"week" date NOT NULL,
	"sent_at" timestamp with time zone,
	"tries" integer DEFAULT 0 NOT NULL,
	"tried_at" timestamp with time zone,
	"problem" text,
	CONSTRAINT "sent_digests_person_week_pk" PRIMARY KEY("person","week")
);
--> statement-breakpoint
CREATE TABLE "standings" (
	"vehicle" integer NOT NULL,
	"day" date NOT NULL,
	"rank" integer NOT NULL,
	"grade" text NOT NULL,
	"reference_slip_rpm" double precision,
	"km_p50" double precision,
	"chance" double precision,
	CONSTRAINT "standings_vehicle_day_pk" PRIMARY KEY("vehicle","day")
);
--> statement-breakpoint
ALTER TABLE "people" ADD COLUMN "weekly_digest" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "depots" ADD COLUMN "week" jsonb DEFAULT '{"monday":{"from":"07:00","to":"16:00"},"tuesday":{"from":"07:00","to":"16:00"},"wednesday":{"from":"07:00","to":"16:00"},"thursday":{"from":"07:00","to":"16:00"},"friday":{"from":"07:00","to":"16:00"},"saturday":null,"sunday":null}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "depots" ADD COLUMN "special_days" jsonb DEFAULT '[]'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "platforms" ADD COLUMN "inspection_hours" double precision DEFAULT 3 NOT NULL;--> statement-breakpoint
ALTER TABLE "vehicles" ADD COLUMN "unavailable" jsonb DEFAULT '[]'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "bookings" ADD CONSTRAINT "bookings_vehicle_vehicles_key_fk" FOREIGN KEY ("vehicle") REFERENCES "public"."vehicles"("key") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bookings" ADD CONSTRAINT "bookings_depot_depots_id_fk" FOREIGN KEY ("depot") REFERENCES "public"."depots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "depot_feeds" ADD CONSTRAINT "depot_feeds_depot_depots_id_fk" FOREIGN KEY ("depot") REFERENCES "public"."depots"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "saved_filters" ADD CONSTRAINT "saved_filters_person_people_id_fk" FOREIGN KEY ("person") REFERENCES "public"."people"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "sent_digests" ADD CONSTRAINT "sent_digests_person_people_id_fk" FOREIGN KEY ("person") REFERENCES "public"."people"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "bookings_open" ON "bookings" USING btree ("vehicle") WHERE state in ('booked', 'put_off');--> statement-breakpoint
CREATE INDEX "bookings_vehicle" ON "bookings" USING btree ("vehicle","id");--> statement-breakpoint
CREATE INDEX "bookings_depot" ON "bookings" USING btree ("depot","day");--> statement-breakpoint
CREATE UNIQUE INDEX "saved_filters_name" ON "saved_filters" USING btree ("person","name");--> statement-breakpoint
CREATE INDEX "standings_day" ON "standings" USING btree ("day");--> statement-breakpoint
ALTER TABLE "bookings" ADD CONSTRAINT "bookings_placed" CHECK (
	("state" <> 'booked' OR "day" IS NOT NULL)
	AND ("state" <> 'put_off' OR "day" IS NULL)
	AND ("day" IS NULL) = ("bay" IS NULL)
	AND ("day" IS NULL) = ("starts_at" IS NULL)
	AND ("day" IS NULL) = ("ends_at" IS NULL)
	AND ("starts_at" IS NULL OR "starts_at" < "ends_at")
);--> statement-breakpoint
ALTER TABLE "bookings" ADD CONSTRAINT "bookings_one_a_bay" EXCLUDE USING gist (
	int8range(hashtextextended("depot", 0), hashtextextended("depot", 0), '[]') WITH &&,
	int4range("bay", "bay", '[]') WITH &&,
	tstzrange("starts_at", "ends_at") WITH &&
) WHERE ("state" = 'booked');--> statement-breakpoint
UPDATE "platforms" SET "costs" = "costs" || '{"lost_day": 0}' WHERE NOT "costs" ? 'lost_day';
