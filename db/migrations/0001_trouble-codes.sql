CREATE TABLE "trouble_codes" (
	"code" text PRIMARY KEY NOT NULL,
	"meaning" text NOT NULL,
	"source" text NOT NULL,
	"counts" boolean DEFAULT true NOT NULL,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
ALTER TABLE "platform_contexts" ADD COLUMN "usual_heat_mj_per_1000km" double precision;--> statement-breakpoint
ALTER TABLE "platform_contexts" ADD COLUMN "heat_vehicles" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "platform_contexts" ADD COLUMN "usual_hot_share" double precision;--> statement-breakpoint
ALTER TABLE "platform_contexts" ADD COLUMN "hot_vehicles" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
CREATE INDEX "stretch_totals_codes" ON "stretch_totals" USING btree ("vehicle") WHERE "stretch_totals"."codes" <> '{}';--> statement-breakpoint
-- Added by hand: the first list, from memory. J1939 parameters with any FMI.
INSERT INTO "trouble_codes" ("code", "meaning", "source") VALUES
	('P0740', 'converter clutch circuit, open', 'SAE J2012, from memory; check against the standard'),
	('P0741', 'converter clutch performance, or stuck off', 'SAE J2012, from memory; check against the standard'),
	('P0742', 'converter clutch stuck on', 'SAE J2012, from memory; check against the standard'),
	('P0743', 'converter clutch circuit, electrical', 'SAE J2012, from memory; check against the standard'),
	('P0744', 'converter clutch circuit, intermittent', 'SAE J2012, from memory; check against the standard'),
	('P0894', 'transmission component slipping', 'SAE J2012, from memory; check against the standard'),
	('P2756', 'converter clutch pressure solenoid', 'SAE J2012, from memory; check against the standard'),
	('P2757', 'converter clutch pressure solenoid performance, or stuck off', 'SAE J2012, from memory; check against the standard'),
	('P2758', 'converter clutch pressure solenoid stuck on', 'SAE J2012, from memory; check against the standard'),
	('P2759', 'converter clutch pressure solenoid circuit, electrical', 'SAE J2012, from memory; check against the standard'),
	('P2760', 'converter clutch pressure solenoid circuit, intermittent', 'SAE J2012, from memory; check against the standard'),
	('P2761', 'converter clutch pressure solenoid circuit, open', 'SAE J2012, from memory; check against the standard'),
	('P2762', 'converter clutch pressure solenoid circuit, range or performance', 'SAE J2012, from memory; check against the standard'),
	('P2763', 'converter clutch pressure solenoid circuit high', 'SAE J2012, from memory; check against the standard'),
	('P2764', 'converter clutch pressure solenoid circuit low', 'SAE J2012, from memory; check against the standard'),
	('P2769', 'converter clutch circuit low', 'SAE J2012, from memory; check against the standard'),
	('P2770', 'converter clutch circuit high', 'SAE J2012, from memory; check against the standard'),
	('SPN 573', 'converter lockup engaged', 'SAE J1939, from memory; check against the standard'),
	('SPN 740', 'lockup clutch actuator', 'SAE J1939, from memory; check against the standard');
