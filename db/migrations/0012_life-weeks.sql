CREATE TABLE "life_weeks" (
	"vehicle" integer PRIMARY KEY NOT NULL,
	"version" integer NOT NULL,
	"limit_rpm" double precision,
	"top_band" integer,
	"weeks" json
);
--> statement-breakpoint
ALTER TABLE "lives" ADD COLUMN "run_km" double precision;--> statement-breakpoint
-- What a closed packet wrote as the mode becomes the word that deliveries use (modeWords in server/contract/packet-words.ts).
UPDATE "lives" SET "mode" = known.now FROM (VALUES
	('Clutch lining worn or glazed', 'lining worn'),
	('Clutch lining came off', 'lining broken up'),
	('Clutch piston cracked', 'piston cracked'),
	('Clutch piston seal leaks', 'apply seal leaking'),
	('Damper broken', 'damper broken'),
	('One-way clutch of the converter failed', 'one-way clutch failed'),
	('Valve stuck', 'valve sticking'),
	('Solenoid failed', 'solenoid failed'),
	('Fault in wiring or a connector', 'wiring fault'),
	('Fault in the driver of the control unit', 'control unit fault'),
	('Fluid wrong, contaminated, or at the wrong level', 'fluid wrong'),
	('Cooler or its lines blocked', 'cooler blocked'),
	('Something else', 'something else'),
	('No fault found', 'no fault found')) AS known(was, now)
WHERE "lives"."mode" = known.was;
