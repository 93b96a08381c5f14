-- The columns of the binder's tables that have rows in the ledger of ten years, without footings.
CREATE TEMP TABLE name (hash TEXT PRIMARY KEY, text TEXT) WITHOUT ROWID;
INSERT INTO name SELECT lower(hex(hash)), text FROM private_text;
CREATE TEMP VIEW e AS
SELECT n, CAST(body AS TEXT) AS b FROM entry;
CREATE TEMP TABLE person (id TEXT PRIMARY KEY, name TEXT) WITHOUT ROWID;
INSERT OR REPLACE INTO person
SELECT json_extract(b, '$.data.person'),
       (SELECT text FROM name WHERE hash = json_extract(b, '$.data.name'))
FROM e WHERE json_extract(b, '$.kind') = 'person-enrolled' ORDER BY n;
CREATE TEMP VIEW s AS
SELECT n AS entry,
       strftime('%Y-%m-%dT%H:%M:%fZ', json_extract(b, '$.at_ms') / 1000.0, 'unixepoch') AS at_utc,
       strftime('%Y-%m-%dT%H:%M:%S',
                json_extract(b, '$.at_ms') / 1000 + json_extract(b, '$.offset_min') * 60,
                'unixepoch') ||
           printf('%+03d:%02d', json_extract(b, '$.offset_min') / 60,
                  abs(json_extract(b, '$.offset_min')) % 60) AS at_local,
       b
FROM e;
.mode csv
.headers on

.output rounds.csv
SELECT entry, at_utc, at_local,
       json_extract(b, '$.data.machine') AS machine,
       json_extract(b, '$.data.round') AS round,
       json_extract(b, '$.data.round_kind') AS round_kind,
       json_extract(b, '$.data.purpose') AS purpose,
       b -> '$.data.takeover' AS takeover,
       strftime('%Y-%m-%dT%H:%M:%fZ', json_extract(b, '$.data.started_ms') / 1000.0,
                'unixepoch') AS started_utc,
       strftime('%Y-%m-%dT%H:%M:%fZ', json_extract(b, '$.data.shift_end_ms') / 1000.0,
                'unixepoch') AS counts_until_utc,
       json_extract(b, '$.data.findings') AS findings,
       json_extract(b, '$.data.hours') AS hours,
       json_extract(b, '$.data.fuel') AS fuel_percent,
       (SELECT group_concat(value, ' ') FROM json_each(b, '$.by')) AS "by",
       (SELECT text FROM name WHERE hash = json_extract(b, '$.data.signature.name')) AS by_name,
       json_extract(b, '$.data.signature.meaning') AS meaning,
       json_extract(b, '$.content') AS content
FROM s WHERE json_extract(b, '$.kind') = 'round-signed' ORDER BY entry;

.output readings.csv
SELECT entry, at_utc, at_local,
       json_extract(b, '$.data.machine') AS machine,
       json_extract(b, '$.data.round') AS round,
       json_extract(r.value, '$.point') AS point,
       json_extract(r.value, '$.reading') AS reading,
       json_extract(r.value, '$.value') AS value,
       strftime('%Y-%m-%dT%H:%M:%fZ', json_extract(r.value, '$.at_ms') / 1000.0,
                'unixepoch') AS read_utc,
       json_extract(r.value, '$.finding') AS finding_entry
FROM s, json_each(b, '$.data.readings') AS r
WHERE json_extract(b, '$.kind') = 'round-signed' ORDER BY entry, r.key;

.output releases.csv
SELECT entry, at_utc, at_local,
       json_extract(b, '$.kind') AS kind,
       json_extract(b, '$.data.machine') AS machine,
       json_extract(b, '$.data.person') AS person,
       (SELECT name FROM person WHERE id = json_extract(b, '$.data.person')) AS person_name,
       json_extract(b, '$.data.room') AS room,
       strftime('%Y-%m-%dT%H:%M:%fZ', json_extract(b, '$.data.until_ms') / 1000.0,
                'unixepoch') AS until_utc,
       json_extract(b, '$.data.round') AS round_entry,
       json_extract(b, '$.data.release') AS release_entry,
       (SELECT group_concat(value, ' ') FROM json_each(b, '$.data.limits')) AS limits,
       json_extract(b, '$.data.findings') AS findings,
       b -> '$.data.closed_for_other' AS closed_for_other,
       (SELECT group_concat(value, ' ') FROM json_each(b, '$.by')) AS "by"
FROM s WHERE json_extract(b, '$.kind') IN ('release-given', 'returned') ORDER BY entry;

.output people.csv
SELECT entry, at_utc, at_local,
       json_extract(b, '$.data.person') AS person,
       (SELECT text FROM name WHERE hash = json_extract(b, '$.data.name')) AS name,
       json_extract(b, '$.data.badge') AS badge,
       json_extract(b, '$.data.language') AS language,
       (SELECT group_concat(value, ' ') FROM json_each(b, '$.data.duties')) AS duties,
       (SELECT group_concat(value, ' ') FROM json_each(b, '$.data.endorsements')) AS endorsements,
       json_extract(b, '$.data.extension') AS extension,
       (SELECT text FROM name WHERE hash = json_extract(b, '$.data.competence')) AS competence,
       json_extract(b, '$.data.listed_until') AS listed_until
FROM s WHERE json_extract(b, '$.kind') = 'person-enrolled' ORDER BY entry;

.output machines.csv
SELECT entry, at_utc, at_local,
       json_extract(b, '$.data.machine') AS machine,
       json_extract(b, '$.data.class') AS class,
       json_extract(b, '$.data.room') AS room,
       json_extract(b, '$.data.hours') AS hours,
       json_extract(b, '$.data.fuel') AS fuel_percent,
       json_extract(b, '$.data.service_every') AS service_every,
       json_extract(b, '$.data.service_done') AS service_done,
       json_extract(b, '$.data.inspection_due') AS inspection_due,
       b -> '$.data.approved_as_truck' AS approved_as_truck
FROM s WHERE json_extract(b, '$.kind') = 'machine-enrolled' ORDER BY entry;

.output entries.csv
SELECT entry, at_utc, at_local,
       json_extract(b, '$.kind') AS kind,
       (SELECT group_concat(value, ' ') FROM json_each(b, '$.by')) AS "by",
       coalesce((SELECT text FROM name WHERE hash = json_extract(b, '$.data.signature.name')),
                (SELECT name FROM person WHERE id = json_extract(b, '$.by[0]'))) AS by_name,
       json_extract(b, '$.data.signature.meaning') AS meaning,
       nullif(json_extract(b, '$.about'), 0) AS about,
       json_extract(b, '$.content') AS content,
       json_extract(b, '$.zone') AS zone,
       json_extract(b, '$.boot') AS boot,
       b -> '$.data' AS data
FROM s ORDER BY entry;
.output stdout
