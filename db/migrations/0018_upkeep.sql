CREATE TABLE "settled_months" (
	"month" text PRIMARY KEY NOT NULL,
	"table_id" bigint NOT NULL,
	"settled_at" timestamp with time zone NOT NULL,
	"rows" bigint NOT NULL,
	"first_at" timestamp with time zone,
	"last_at" timestamp with time zone,
	"heap_bytes" bigint NOT NULL,
	"index_bytes_before" bigint NOT NULL,
	"index_bytes" bigint NOT NULL
);
--> statement-breakpoint
CREATE TABLE "upkeep_runs" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"started_at" timestamp with time zone NOT NULL,
	"ended_at" timestamp with time zone,
	"state" text NOT NULL,
	"steps" jsonb NOT NULL
);
--> statement-breakpoint
CREATE INDEX "upkeep_runs_started" ON "upkeep_runs" USING btree ("started_at");