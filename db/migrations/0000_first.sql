CREATE TABLE "assessments" (
	"vehicle" integer PRIMARY KEY NOT NULL,
	"as_of" timestamp with time zone NOT NULL,
	"rank" integer NOT NULL,
	"grade" text NOT NULL,
	"pattern" text NOT NULL,
	"life" smallint NOT NULL,
	"reference_slip_rpm" double precision,
	"baseline_rpm" double precision,
	"limit_rpm" double precision NOT NULL,
	"onset_km" double precision,
	"drift_rpm_per_km" double precision,
	"drift_low" double precision,
	"drift_high" double precision,
	"p" double precision,
	"q" double precision,
	"km_p10" double precision,
	"km_p50" double precision,
	"km_p90" double precision,
	"km_per_day" double precision,
	"chance" double precision,
	"cost_avoided" double precision,
	"facts" jsonb NOT NULL,
	"brief" jsonb NOT NULL,
	"detail" jsonb NOT NULL
);
--> statement-breakpoint
CREATE TABLE "fleet_events" (
	"platform" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"size_rpm" double precision NOT NULL,
	"vehicles" integer NOT NULL,
	CONSTRAINT "fleet_events_platform_at_pk" PRIMARY KEY("platform","at")
);
--> statement-breakpoint
CREATE TABLE "grade_changes" (
	"vehicle" integer NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"from_grade" text,
	"to_grade" text NOT NULL,
	"odometer_km" double precision,
	"why" jsonb,
	CONSTRAINT "grade_changes_vehicle_at_pk" PRIMARY KEY("vehicle","at")
);
--> statement-breakpoint
CREATE TABLE "odometer_steps" (
	"vehicle" integer NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"offset_km" double precision NOT NULL,
	CONSTRAINT "odometer_steps_vehicle_at_pk" PRIMARY KEY("vehicle","at")
);
--> statement-breakpoint
CREATE TABLE "platform_contexts" (
	"platform" text PRIMARY KEY NOT NULL,
	"as_of" timestamp with time zone NOT NULL,
	"vehicles" integer NOT NULL,
	"vehicle_days" double precision NOT NULL,
	"context" jsonb NOT NULL
);
--> statement-breakpoint
CREATE TABLE "stretch_totals" (
	"vehicle" integer NOT NULL,
	"life" smallint NOT NULL,
	"stretch" integer NOT NULL,
	"first_at" timestamp with time zone NOT NULL,
	"last_at" timestamp with time zone NOT NULL,
	"usable" integer NOT NULL,
	"set_aside" jsonb NOT NULL,
	"fluid_bins" integer[] NOT NULL,
	"load_bins" integer[],
	"heat_kw_sum" real,
	"heat_n" integer DEFAULT 0 NOT NULL,
	"heat_speed_sum" real,
	"codes" jsonb NOT NULL,
	CONSTRAINT "stretch_totals_vehicle_life_stretch_pk" PRIMARY KEY("vehicle","life","stretch")
);
--> statement-breakpoint
CREATE TABLE "stretches" (
	"vehicle" integer NOT NULL,
	"life" smallint NOT NULL,
	"band" smallint NOT NULL,
	"stretch" integer NOT NULL,
	"first_at" timestamp with time zone NOT NULL,
	"last_at" timestamp with time zone NOT NULL,
	"n" integer NOT NULL,
	"weight" double precision NOT NULL,
	"effective" double precision NOT NULL,
	"odometer_km" double precision NOT NULL,
	"slip_rpm" double precision NOT NULL,
	"scale_rpm" double precision NOT NULL,
	"duty_pct" double precision NOT NULL,
	"fluid_c" double precision NOT NULL,
	"load_pct" double precision,
	"moments" double precision[] NOT NULL,
	CONSTRAINT "stretches_vehicle_life_band_stretch_pk" PRIMARY KEY("vehicle","life","band","stretch")
);
--> statement-breakpoint
CREATE TABLE "depots" (
	"id" text PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"bays" integer NOT NULL,
	"time_zone" text NOT NULL,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "lives" (
	"vehicle" integer NOT NULL,
	"fitted_km" double precision NOT NULL,
	"fitted_at" timestamp with time zone,
	"source" text NOT NULL,
	"removed_km" double precision,
	"removed_at" timestamp with time zone,
	"ended" text,
	"mode" text,
	"supplier" text,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "lives_vehicle_fitted_km_pk" PRIMARY KEY("vehicle","fitted_km")
);
--> statement-breakpoint
CREATE TABLE "platforms" (
	"id" text PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"limit_rpm" double precision NOT NULL,
	"band_edges_pct" double precision[] NOT NULL,
	"reference" jsonb NOT NULL,
	"gate" jsonb NOT NULL,
	"life_km" double precision,
	"solenoid" jsonb,
	"reference_torque_nm" double precision,
	"costs" jsonb NOT NULL,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "vehicles" (
	"key" serial PRIMARY KEY NOT NULL,
	"unit" text NOT NULL,
	"depot" text,
	"platform" text,
	"vin" text,
	"retired" boolean DEFAULT false NOT NULL,
	"registered" boolean DEFAULT false NOT NULL,
	"first_reading_at" timestamp with time zone,
	"last_reading_at" timestamp with time zone,
	"odometer_km" double precision,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	CONSTRAINT "vehicles_unit_unique" UNIQUE("unit")
);
--> statement-breakpoint
CREATE TABLE "readings" (
	"at" timestamp with time zone NOT NULL,
	"vehicle" integer NOT NULL,
	"odometer_km" real NOT NULL,
	"slip_rpm" real NOT NULL,
	"duty_pct" real NOT NULL,
	"fluid_c" real NOT NULL,
	"load_pct" real,
	"torque_pct" real,
	"throttle_pct" real,
	"speed_kmh" real,
	"seconds" real,
	"gear" smallint,
	"shifting" boolean,
	"codes" text[],
	CONSTRAINT "readings_vehicle_at_pk" PRIMARY KEY("vehicle","at")
) PARTITION BY RANGE ("at");
--> statement-breakpoint
CREATE TABLE "receipts" (
	"id" uuid PRIMARY KEY NOT NULL,
	"at" timestamp with time zone DEFAULT now() NOT NULL,
	"content_type" text NOT NULL,
	"complete" boolean NOT NULL,
	"received" integer NOT NULL,
	"stored" integer NOT NULL,
	"duplicate" integer NOT NULL,
	"conflicting" integer NOT NULL,
	"refused" integer NOT NULL,
	"idempotency_key" text,
	"body_sha256" text,
	"status" smallint NOT NULL,
	"reply" jsonb NOT NULL,
	CONSTRAINT "receipts_idempotency_key_unique" UNIQUE("idempotency_key")
);
--> statement-breakpoint
CREATE TABLE "refused_lines" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"receipt" uuid NOT NULL,
	"line" integer NOT NULL,
	"raw" text NOT NULL,
	"errors" jsonb NOT NULL,
	"unit" text,
	"at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "touched_vehicles" (
	"vehicle" integer PRIMARY KEY NOT NULL,
	"from_at" timestamp with time zone NOT NULL,
	"to_at" timestamp with time zone NOT NULL,
	"version" integer DEFAULT 1 NOT NULL
);
--> statement-breakpoint
ALTER TABLE "lives" ADD CONSTRAINT "lives_vehicle_vehicles_key_fk" FOREIGN KEY ("vehicle") REFERENCES "public"."vehicles"("key") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "vehicles" ADD CONSTRAINT "vehicles_depot_depots_id_fk" FOREIGN KEY ("depot") REFERENCES "public"."depots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "vehicles" ADD CONSTRAINT "vehicles_platform_platforms_id_fk" FOREIGN KEY ("platform") REFERENCES "public"."platforms"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "assessments_rank" ON "assessments" USING btree ("rank");--> statement-breakpoint
CREATE INDEX "assessments_grade" ON "assessments" USING btree ("grade","rank");--> statement-breakpoint
CREATE INDEX "receipts_at" ON "receipts" USING btree ("at");--> statement-breakpoint
CREATE INDEX "refused_lines_receipt" ON "refused_lines" USING btree ("receipt","line");--> statement-breakpoint
CREATE INDEX "refused_lines_unit" ON "refused_lines" USING btree ("unit");