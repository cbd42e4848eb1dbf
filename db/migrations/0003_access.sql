CREATE TABLE "access_keys" (
	"id" text PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"right" text NOT NULL,
	"digest" "bytea" NOT NULL,
	"requests_per_minute" integer NOT NULL,
	"max_body_mib" integer,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"created_by" text NOT NULL,
	"expires_at" timestamp with time zone,
	"revoked_at" timestamp with time zone,
	"used_at" timestamp with time zone,
	"used_from" text
);
--> statement-breakpoint
CREATE TABLE "changes" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"actor_kind" text NOT NULL,
	"actor_id" text,
	"actor_name" text NOT NULL,
	"from_address" text,
	"request" text,
	"action" text NOT NULL,
	"subject" text NOT NULL,
	"subject_id" text NOT NULL,
	"before" jsonb,
	"after" jsonb
);
--> statement-breakpoint
CREATE TABLE "installation" (
	"name" text PRIMARY KEY NOT NULL,
	"value" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "one_time_tokens" (
	"id" text PRIMARY KEY NOT NULL,
	"identifier" text NOT NULL,
	"value" text NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"updated_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
CREATE TABLE "people" (
	"id" text PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"email" text NOT NULL,
	"email_verified" boolean DEFAULT false NOT NULL,
	"image" text,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"updated_at" timestamp with time zone DEFAULT now() NOT NULL,
	"role" text NOT NULL,
	"depots" text[],
	"closed" boolean DEFAULT false NOT NULL,
	"signed_in_at" timestamp with time zone,
	CONSTRAINT "people_email_unique" UNIQUE("email")
);
--> statement-breakpoint
CREATE TABLE "sessions" (
	"id" text PRIMARY KEY NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"token" text NOT NULL,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"updated_at" timestamp with time zone DEFAULT now() NOT NULL,
	"ip_address" text,
	"user_agent" text,
	"user_id" text NOT NULL,
	CONSTRAINT "sessions_token_unique" UNIQUE("token")
);
--> statement-breakpoint
CREATE TABLE "shop_vehicles" (
	"id" bigserial PRIMARY KEY NOT NULL,
	"vehicle" integer NOT NULL,
	"depot" text NOT NULL,
	"sent_at" timestamp with time zone NOT NULL,
	"sent_by" text NOT NULL,
	"note" text,
	"ended_at" timestamp with time zone,
	"ended_by" text
);
--> statement-breakpoint
CREATE TABLE "sign_in_attempts" (
	"email" text PRIMARY KEY NOT NULL,
	"failed" integer NOT NULL,
	"locked_until" timestamp with time zone,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "sign_in_ways" (
	"id" text PRIMARY KEY NOT NULL,
	"account_id" text NOT NULL,
	"provider_id" text NOT NULL,
	"user_id" text NOT NULL,
	"access_token" text,
	"refresh_token" text,
	"id_token" text,
	"access_token_expires_at" timestamp with time zone,
	"refresh_token_expires_at" timestamp with time zone,
	"scope" text,
	"password" text,
	"created_at" timestamp with time zone DEFAULT now() NOT NULL,
	"updated_at" timestamp with time zone DEFAULT now() NOT NULL
);
--> statement-breakpoint
ALTER TABLE "receipts" ADD COLUMN "sender" text;--> statement-breakpoint
ALTER TABLE "sessions" ADD CONSTRAINT "sessions_user_id_people_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."people"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "shop_vehicles" ADD CONSTRAINT "shop_vehicles_vehicle_vehicles_key_fk" FOREIGN KEY ("vehicle") REFERENCES "public"."vehicles"("key") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "shop_vehicles" ADD CONSTRAINT "shop_vehicles_depot_depots_id_fk" FOREIGN KEY ("depot") REFERENCES "public"."depots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "sign_in_ways" ADD CONSTRAINT "sign_in_ways_user_id_people_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."people"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "changes_subject" ON "changes" USING btree ("subject","subject_id");--> statement-breakpoint
CREATE INDEX "changes_at" ON "changes" USING btree ("at");--> statement-breakpoint
CREATE INDEX "one_time_tokens_identifier" ON "one_time_tokens" USING btree ("identifier");--> statement-breakpoint
CREATE INDEX "sessions_user" ON "sessions" USING btree ("user_id");--> statement-breakpoint
CREATE INDEX "shop_vehicles_vehicle" ON "shop_vehicles" USING btree ("vehicle");--> statement-breakpoint
CREATE UNIQUE INDEX "shop_vehicles_one" ON "shop_vehicles" USING btree ("vehicle") WHERE ended_at is null;--> statement-breakpoint
CREATE INDEX "shop_vehicles_depot" ON "shop_vehicles" USING btree ("depot") WHERE ended_at is null;--> statement-breakpoint
CREATE INDEX "sign_in_ways_user" ON "sign_in_ways" USING btree ("user_id");--> statement-breakpoint
CREATE UNIQUE INDEX "sign_in_ways_account" ON "sign_in_ways" USING btree ("provider_id","account_id");--> statement-breakpoint
CREATE FUNCTION "refuse_to_forget"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'changes are kept as they were written' USING ERRCODE = 'insufficient_privilege';
END $$;--> statement-breakpoint
CREATE TRIGGER "changes_stay" BEFORE UPDATE OR DELETE ON "changes"
  FOR EACH ROW EXECUTE FUNCTION "refuse_to_forget"();--> statement-breakpoint
CREATE TRIGGER "changes_stay_whole" BEFORE TRUNCATE ON "changes"
  FOR EACH STATEMENT EXECUTE FUNCTION "refuse_to_forget"();
