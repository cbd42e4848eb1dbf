CREATE TABLE "odometer_answers" (
	"vehicle" integer NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"answer" text NOT NULL,
	"note" text DEFAULT '' NOT NULL,
	"answered_at" timestamp with time zone NOT NULL,
	"answered_by" text NOT NULL,
	CONSTRAINT "odometer_answers_vehicle_at_pk" PRIMARY KEY("vehicle","at")
);
--> statement-breakpoint
CREATE TABLE "mappings" (
	"name" text PRIMARY KEY NOT NULL,
	"mapping" jsonb NOT NULL,
	"changed_at" timestamp with time zone DEFAULT now() NOT NULL,
	"changed_by" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "sender_weeks" (
	"sender" text NOT NULL,
	"vehicle" integer NOT NULL,
	"week" date NOT NULL,
	"stored" integer NOT NULL,
	CONSTRAINT "sender_weeks_vehicle_week_sender_pk" PRIMARY KEY("vehicle","week","sender")
);
--> statement-breakpoint
CREATE TABLE "webhook_posts" (
	"id" uuid PRIMARY KEY NOT NULL,
	"webhook" integer NOT NULL,
	"vehicle" integer NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"body" jsonb NOT NULL,
	"state" text DEFAULT 'waiting' NOT NULL,
	"tries" smallint DEFAULT 0 NOT NULL,
	"next_at" timestamp with time zone,
	"last_at" timestamp with time zone,
	"last_status" smallint,
	"last_fault" text
);
--> statement-breakpoint
CREATE TABLE "webhooks" (
	"id" serial PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"url" text NOT NULL,
	"secret" text NOT NULL,
	"grades" text[] NOT NULL,
	"paused" boolean DEFAULT false NOT NULL,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"created_by" text NOT NULL,
	"ended_at" timestamp with time zone
);
--> statement-breakpoint
ALTER TABLE "receipts" ADD COLUMN "ended_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "receipts" ADD COLUMN "file" text;--> statement-breakpoint
ALTER TABLE "receipts" ADD COLUMN "read_with" jsonb;--> statement-breakpoint
ALTER TABLE "refused_lines" ADD COLUMN "fault" text;--> statement-breakpoint
UPDATE "refused_lines" SET "fault" = ltrim(concat_ws(' ', "errors" -> 0 ->> 'field', "errors" -> 0 ->> 'message'));--> statement-breakpoint
ALTER TABLE "refused_lines" ALTER COLUMN "fault" SET NOT NULL;--> statement-breakpoint
ALTER TABLE "refused_lines" ADD COLUMN "state" text DEFAULT 'open' NOT NULL;--> statement-breakpoint
ALTER TABLE "refused_lines" ADD COLUMN "settled_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "refused_lines" ADD COLUMN "settled_by" text;--> statement-breakpoint
ALTER TABLE "refused_lines" ADD COLUMN "let_in_receipt" uuid;--> statement-breakpoint
ALTER TABLE "webhook_posts" ADD CONSTRAINT "webhook_posts_webhook_webhooks_id_fk" FOREIGN KEY ("webhook") REFERENCES "public"."webhooks"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "sender_weeks_sender" ON "sender_weeks" USING btree ("sender","week");--> statement-breakpoint
CREATE UNIQUE INDEX "webhook_posts_event" ON "webhook_posts" USING btree ("webhook","vehicle","at");--> statement-breakpoint
CREATE INDEX "webhook_posts_waiting" ON "webhook_posts" USING btree ("next_at") WHERE "webhook_posts"."state" = 'waiting';--> statement-breakpoint
CREATE INDEX "webhook_posts_at" ON "webhook_posts" USING btree ("at");--> statement-breakpoint
CREATE INDEX "receipts_sender" ON "receipts" USING btree ("sender","at");--> statement-breakpoint
CREATE INDEX "refused_lines_open" ON "refused_lines" USING btree ("fault","id") WHERE "refused_lines"."state" = 'open';