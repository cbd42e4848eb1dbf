CREATE TABLE "findings" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"packet" bigint NOT NULL,
	"step" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"by" text NOT NULL,
	"odometer_km" double precision,
	"input" jsonb NOT NULL,
	"judgement" jsonb NOT NULL,
	"trace" jsonb,
	"file" bigint
);
--> statement-breakpoint
CREATE TABLE "packet_files" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"packet" bigint NOT NULL,
	"kind" text NOT NULL,
	"name" text NOT NULL,
	"type" text NOT NULL,
	"size" integer NOT NULL,
	"digest" "bytea" NOT NULL,
	"content" "bytea" NOT NULL,
	"added_at" timestamp with time zone NOT NULL,
	"added_by" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "packet_links" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"packet" bigint NOT NULL,
	"digest" "bytea" NOT NULL,
	"label" text NOT NULL,
	"may_report" boolean NOT NULL,
	"made_at" timestamp with time zone NOT NULL,
	"made_by" text NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"revoked_at" timestamp with time zone,
	"revoked_by" text,
	CONSTRAINT "packet_links_digest_unique" UNIQUE("digest")
);
--> statement-breakpoint
CREATE TABLE "packet_openings" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"link" bigint NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"from_address" text,
	"what" text NOT NULL,
	"browser" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "packets" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"vehicle" integer NOT NULL,
	"depot" text,
	"state" text NOT NULL,
	"version" integer DEFAULT 1 NOT NULL,
	"opened_at" timestamp with time zone NOT NULL,
	"opened_by" text NOT NULL,
	"flag" jsonb NOT NULL,
	"report" jsonb NOT NULL,
	"outcome" text,
	"closed_at" timestamp with time zone,
	"closed_by" text,
	"work_at" timestamp with time zone,
	"odometer_km" double precision,
	"cause" text,
	"reason" text DEFAULT '' NOT NULL,
	"without_cooler" text DEFAULT '' NOT NULL,
	"converter_km" double precision,
	"ended" text,
	"new_life_km" double precision,
	"calm_until_km" double precision,
	"calm_slip_rpm" double precision
);
--> statement-breakpoint
ALTER TABLE "platforms" ADD COLUMN "converter" jsonb;--> statement-breakpoint
ALTER TABLE "findings" ADD CONSTRAINT "findings_packet_packets_id_fk" FOREIGN KEY ("packet") REFERENCES "public"."packets"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "findings" ADD CONSTRAINT "findings_file_packet_files_id_fk" FOREIGN KEY ("file") REFERENCES "public"."packet_files"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "packet_files" ADD CONSTRAINT "packet_files_packet_packets_id_fk" FOREIGN KEY ("packet") REFERENCES "public"."packets"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "packet_links" ADD CONSTRAINT "packet_links_packet_packets_id_fk" FOREIGN KEY ("packet") REFERENCES "public"."packets"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "packet_openings" ADD CONSTRAINT "packet_openings_link_packet_links_id_fk" FOREIGN KEY ("link") REFERENCES "public"."packet_links"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "packets" ADD CONSTRAINT "packets_vehicle_vehicles_key_fk" FOREIGN KEY ("vehicle") REFERENCES "public"."vehicles"("key") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "packets" ADD CONSTRAINT "packets_depot_depots_id_fk" FOREIGN KEY ("depot") REFERENCES "public"."depots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "findings_packet" ON "findings" USING btree ("packet","id");--> statement-breakpoint
CREATE UNIQUE INDEX "packet_files_once" ON "packet_files" USING btree ("packet","kind","digest");--> statement-breakpoint
CREATE INDEX "packet_links_packet" ON "packet_links" USING btree ("packet");--> statement-breakpoint
CREATE INDEX "packet_openings_link" ON "packet_openings" USING btree ("link","id");--> statement-breakpoint
CREATE UNIQUE INDEX "packets_open" ON "packets" USING btree ("vehicle") WHERE state = 'open';--> statement-breakpoint
CREATE INDEX "packets_vehicle" ON "packets" USING btree ("vehicle","id");--> statement-breakpoint
CREATE INDEX "packets_depot" ON "packets" USING btree ("depot","id");--> statement-breakpoint
CREATE INDEX "packets_calm" ON "packets" USING btree ("vehicle") WHERE calm_until_km is not null;--> statement-breakpoint
UPDATE "platforms" SET "solenoid" = '{"wiring_ohm": 0.5, "tolerance_pct": 25}'::jsonb || "solenoid" WHERE "solenoid" IS NOT NULL;
