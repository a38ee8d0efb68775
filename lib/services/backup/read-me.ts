/** What a person finds who opens a backup without Coatbook. */
export const readMeText = `This is a backup of a Coatbook journal.

originals/            every photo as it came, byte for byte. The name is the SHA-256 of its bytes.
journal.json          everything that was written down: jobs, pieces, steps, products, air, money.
                      UTF-8; moments are ISO 8601 in UTC, money is in minor units (pence, cents).
journal.schema.json   what may stand in journal.json: a JSON Schema (draft 2020-12) with an explanation of each field.
manifest.json         what is in here, with the SHA-256 of each file, and which photos could not be put in.

To bring it back, with Coatbook installed and stopped:

  npm run restore -- THIS-FILE.zip --dry-run     says what it would do and changes nothing
  npm run restore -- THIS-FILE.zip

Not in here: the passphrase and the paired phones of the workshop, and the smaller pictures made from the photos.
Photos hold what the camera wrote into them, often the place where they were taken. Keep this file as you keep the photos.
`
