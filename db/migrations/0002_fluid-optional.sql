ALTER TABLE "stretches" ALTER COLUMN "fluid_c" DROP NOT NULL;--> statement-breakpoint
ALTER TABLE "readings" ALTER COLUMN "fluid_c" DROP NOT NULL;