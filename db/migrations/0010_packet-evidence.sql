CREATE TABLE "packet_evidence" (
	"packet" bigint PRIMARY KEY NOT NULL,
	"series" jsonb NOT NULL
);
--> statement-breakpoint
ALTER TABLE "packet_evidence" ADD CONSTRAINT "packet_evidence_packet_packets_id_fk" FOREIGN KEY ("packet") REFERENCES "public"."packets"("id") ON DELETE cascade ON UPDATE no action;