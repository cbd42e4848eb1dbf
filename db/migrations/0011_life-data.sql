CREATE TABLE "life_fits" (
	"platform" text NOT NULL,
	"fitted_at" timestamp with time zone NOT NULL,
	"basis" text NOT NULL,
	"lives" integer NOT NULL,
	"failures" integer NOT NULL,
	"fleet_failures" integer NOT NULL,
	"shape" double precision NOT NULL,
	"scale_km" double precision NOT NULL,
	"var_log_scale" double precision,
	"var_log_shape" double precision,
	"cov_logs" double precision,
	CONSTRAINT "life_fits_platform_fitted_at_pk" PRIMARY KEY("platform","fitted_at")
);
--> statement-breakpoint
CREATE TABLE "replays" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"asked_at" timestamp with time zone NOT NULL,
	"asker" text NOT NULL,
	"asked_by" text NOT NULL,
	"depots" text[],
	"request" jsonb NOT NULL,
	"state" text NOT NULL,
	"started_at" timestamp with time zone,
	"ended_at" timestamp with time zone,
	"done" integer DEFAULT 0 NOT NULL,
	"of" integer DEFAULT 0 NOT NULL,
	"alive_at" timestamp with time zone,
	"result" jsonb,
	"error" text
);
--> statement-breakpoint
CREATE TABLE "workbench_sets" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"person" text NOT NULL,
	"name" text NOT NULL,
	"kind" text NOT NULL,
	"text" "bytea" NOT NULL,
	"characters" integer NOT NULL,
	"choice" jsonb NOT NULL,
	"stored_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
ALTER TABLE "readings" ADD COLUMN "arrived_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "workbench_sets" ADD CONSTRAINT "workbench_sets_person_people_id_fk" FOREIGN KEY ("person") REFERENCES "public"."people"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "replays_asked" ON "replays" USING btree ("asked_at");--> statement-breakpoint
CREATE UNIQUE INDEX "workbench_sets_name" ON "workbench_sets" USING btree ("person","name");