-- What the converter of a used part had run, and that of a life, is not known of what was kept before it could be said.
UPDATE "packets" SET "report" = jsonb_set("report", '{parts}', (
	SELECT coalesce(jsonb_agg('{"run_km": null}'::jsonb || known.part ORDER BY known.place), '[]'::jsonb)
	FROM jsonb_array_elements("report"->'parts') WITH ORDINALITY AS known(part, place)))
WHERE jsonb_typeof("report"->'parts') = 'array';
--> statement-breakpoint
UPDATE "packet_evidence" SET "series" = jsonb_set("series", '{lives}', (
	SELECT coalesce(jsonb_agg('{"run_km": null}'::jsonb || known.life ORDER BY known.place), '[]'::jsonb)
	FROM jsonb_array_elements("series"->'lives') WITH ORDINALITY AS known(life, place)))
WHERE jsonb_typeof("series"->'lives') = 'array';
