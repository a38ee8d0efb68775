import { buffer } from 'node:stream/consumers'
import ExifReader from 'exifreader'
import { afterAll, describe, expect, test } from 'vitest'
import { embedPair } from '#core/portfolio/embed-pair'
import { instant } from '#core/units'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { removePhoto } from '#services/bin/bin'
import { database } from '#services/database/open-database'
import { keepDraft } from '#services/portfolio/drafts'
import { readPublishedPiece } from '#services/portfolio/published'
import { unpublishPiece } from '#services/portfolio/publish'
import { changePortfolioSettings } from '#services/portfolio/settings'
import { openStaticCopy } from '#services/portfolio/static-copy'
import { readListingJsonLd } from '#services/write-ups/write-ups'
import { keepPhotoRow } from '../support/photo-row'
import { readZip } from '../support/read-zip'
import { arrival, sendPhotos } from '../support/send-photos'
import {
  accepted,
  choiceOf,
  makeShownJob,
  publishWith,
} from '../support/shown-job'
import { makeTelltale, secrets } from '../support/telltale-photo'
import { addressesIn, visit } from '../support/visit'
import { useWorkshop } from '../support/workshop'

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})

/** Stands in every private field, with the field's own name behind it. */
const mark = 'PRIVATEMARK'
/** An amount of money that nothing else comes to. */
const amount = 8_675_309

/**
 * A workshop with one piece out and a mark in every field that nobody may see: costs, hours, notes, flaws, clients,
 * products, cameras, names of files, drafts, unpublished pieces and jobs, words of write-ups, captions, devices.
 */
async function markedWorkshop() {
  const db = await database()
  const at = new Date(arrival)
  const job = await makeShownJob(
    [`${mark}-before-file.jpg`, await makeTelltale(1)],
    [`${mark}-after-file.jpg`, await makeTelltale(2)],
  )
  const { id: jobId, pieceId } = job
  await db.camera.updateMany({
    data: {
      make: `${mark}-make`,
      model: `${mark}-model`,
      serial: `${mark}-serial`,
    },
  })
  await db.job.update({
    where: { id: jobId },
    data: {
      title: `${mark}-job-title`,
      askingPriceMinor: amount,
      collection: `${mark}-collection`,
      client: `${mark}-client`,
      brief: `${mark}-brief`,
    },
  })
  await db.piece.update({
    where: { id: pieceId },
    data: {
      material: `${mark}-material`,
      flaws: `${mark}-flaws`,
      style: `${mark}-style`,
      age: `${mark}-age`,
      ageKnownBy: `${mark}-age-known-by`,
      hardware: `${mark}-hardware`,
    },
  })
  await db.piece.create({
    data: {
      id: `${mark}-piece-id`,
      jobId,
      position: 1,
      name: `${mark}-other-piece`,
      kind: `${mark}-other-kind`,
      surfaces: {
        create: {
          id: `${mark}-surface-id`,
          position: 0,
          name: `${mark}-other-surface`,
        },
      },
    },
  })
  await db.product.create({
    data: {
      id: `${mark}-product-id`,
      name: `${mark}-product, ${mark}-colour`,
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label: '{}',
      packPriceMinor: amount,
      packAmount: 1,
      packUnit: 'l',
      link: `https://${mark}.example/product`,
      createdAt: at,
    },
  })
  const surface = await db.surface.findFirstOrThrow({ where: { pieceId } })
  await db.step.create({
    data: {
      id: `${mark}-step-id`,
      jobId,
      kind: 'coat',
      productId: `${mark}-product-id`,
      note: `${mark}-note`,
      createdAt: at,
      surfaces: { create: { surfaceId: surface.id, coat: 1 } },
      hours: { create: { workMinutes: amount } },
    },
  })
  // A photo that was not chosen, of the same piece.
  const hidden = await keepPhotoRow(jobId, {
    role: 'after',
    surfaceIds: [surface.id],
  })
  await db.photo.update({
    where: { id: hidden },
    data: {
      view: `${mark}-view`,
      flaw: `${mark}-flaw-photo`,
      fileName: `${mark}-hidden.jpg`,
      warnings: JSON.stringify([`${mark}-warning`]),
    },
  })
  await db.costEntry.create({
    data: {
      id: `${mark}-cost-id`,
      jobId,
      kind: 'acquisition',
      words: `${mark}-cost`,
      quantity: 1,
      eachMinor: amount,
      createdAt: at,
    },
  })
  await db.workEntry.create({
    data: {
      id: `${mark}-work-id`,
      jobId,
      words: `${mark}-work`,
      minutes: amount,
      createdAt: at,
    },
  })
  await db.sale.create({
    data: { jobId, priceMinor: amount, feesPaidMinor: amount },
  })
  await db.rates.create({
    data: { id: 'workshop', hourlyMinor: amount, yearlyOverheadMinor: amount },
  })
  await db.sentenceEdit.create({
    data: {
      jobId,
      writeUp: 'listing',
      sentence: 'title',
      words: `${mark}-edit`,
      madeOn: JSON.stringify({ text: `${mark}-made-on`, facts: [] }),
      editedAt: at,
    },
  })
  await db.captions.create({
    data: { jobId, text: `${mark}-captions`, keptAt: at },
  })
  await db.writeUpSettings.create({
    data: {
      id: 'workshop',
      listingTitleLimit: 80,
      listingLimit: 4000,
      videoLimit: 5000,
      captionLimit: 2200,
      links: JSON.stringify([
        { label: `${mark}-label`, address: `https://${mark}.example/` },
      ]),
      tags: JSON.stringify([`${mark}-tag`]),
    },
  })
  await db.device.create({
    data: {
      id: `${mark}-device-id`,
      name: `${mark}-device`,
      tokenHash: `${mark}-token`,
      way: 'paired',
      addedAt: at,
      seenAt: at,
      endsAt: at,
    },
  })
  await db.airReading.create({
    data: { at, celsius: 13.371337, humidity: 61.616161 },
  })

  const slug = await publishWith(
    jobId,
    pieceId,
    choiceOf(job, {
      story: 'What anybody may read.',
      finish: false,
      size: true,
      contact: true,
    }),
  )
  // A draft that goes further than what is out.
  accepted(
    await keepDraft(
      jobId,
      pieceId,
      choiceOf(job, {
        title: `${mark}-draft-title`,
        story: `${mark}-draft-story`,
        price: 'asking',
        materials: true,
        finish: true,
        steps: [`${mark}-step-id`],
      }),
    ),
  )

  // A job that was never out, one that was taken down, and a photo that went into the bin after it was out.
  const never = await makeShownJob(
    [`${mark}-never-b.jpg`, await makeTelltale(3)],
    [`${mark}-never-a.jpg`, await makeTelltale(4)],
  )
  accepted(
    await keepDraft(
      never.id,
      never.pieceId,
      choiceOf(never, { title: `${mark}-never`, story: `${mark}-never-story` }),
    ),
  )
  const down = await makeShownJob(
    [`${mark}-down-b.jpg`, await makeTelltale(5)],
    [`${mark}-down-a.jpg`, await makeTelltale(6)],
  )
  const downSlug = await publishWith(
    down.id,
    down.pieceId,
    choiceOf(down, { title: `${mark} down`, story: `${mark}-down-story` }),
  )
  accepted(await unpublishPiece(down.id, down.pieceId))
  const { photos } = await sendPhotos(
    jobId,
    [[`${mark}-binned.jpg`, await makeTelltale(7)]],
    [
      ['role', 'after'],
      ['view', 'side'],
    ],
  )
  const binned = photos[0]?.id ?? ''
  const bothShown = choiceOf(job, {
    story: 'What anybody may read.',
    size: true,
    contact: true,
    photos: [binned],
  })
  await publishWith(jobId, pieceId, bothShown)
  accepted(await removePhoto(jobId, binned, arrival))
  accepted(
    await keepDraft(
      jobId,
      pieceId,
      choiceOf(job, {
        title: `${mark}-draft-title`,
        story: `${mark}-draft-story`,
      }),
    ),
  )

  await changePortfolioSettings({
    publicAddress: 'https://alder-yard.example',
    introduction: 'Two bays.',
    contact: 'By appointment',
  })
  const rows = await Promise.all([
    db.job.findMany({ select: { id: true } }),
    db.piece.findMany({ select: { id: true } }),
    db.photo.findMany({ select: { id: true } }),
    db.pair.findMany({ select: { id: true } }),
    db.camera.findMany({ select: { id: true } }),
    db.surface.findMany({ select: { id: true } }),
  ])
  const hashes = await db.original.findMany({ select: { sha256: true } })
  return {
    job,
    slug,
    downSlug,
    innards: [
      ...rows.flat().map(({ id }) => id),
      ...hashes.map(({ sha256 }) => sha256.slice(0, 16)),
    ],
  }
}

type Output = { readonly name: string; readonly bytes: Buffer }

/** All that a stranger can get: pages, feed, sitemap, pictures with their headers, the copy, and a snippet. */
async function publicOutput(
  slug: string,
  downSlug: string,
): Promise<readonly Output[]> {
  const outputs: Output[] = []
  const pictures = new Set<string>()
  for (const address of [
    '/portfolio',
    `/portfolio/${slug}`,
    `/portfolio/${downSlug}`,
    '/portfolio/nothing',
    '/portfolio/feed.xml',
    '/portfolio/sitemap.xml',
  ]) {
    const answer = await visit(address)
    const text = await answer.text()
    outputs.push({
      name: address,
      bytes: Buffer.from(`${JSON.stringify([...answer.headers])}${text}`),
    })
    for (const one of addressesIn(text)) {
      if (/\.(?:webp|jpg)$/.test(one)) pictures.add(one)
    }
  }
  pictures.add(`/portfolio/${slug}/shared.jpg`)
  pictures.add(`/portfolio/${slug}/side-after-1440.webp`)
  pictures.add(`/portfolio/${downSlug}/front-after-1440.webp`)
  for (const address of pictures) {
    const answer = await visit(address)
    outputs.push({
      name: address,
      bytes: Buffer.concat([
        Buffer.from(JSON.stringify([...answer.headers])),
        Buffer.from(await answer.arrayBuffer()),
      ]),
    })
  }
  const copy = await buffer(await openStaticCopy())
  outputs.push({ name: 'the zip itself', bytes: copy })
  for (const [name, bytes] of await readZip(copy)) {
    outputs.push({ name: `copy: ${name}`, bytes })
  }
  const piece = await readPublishedPiece(slug)
  for (const pair of piece?.shown.pairs ?? []) {
    outputs.push({
      name: 'snippet',
      bytes: Buffer.from(embedPair(pair, (file) => file)),
    })
  }
  return outputs
}

describe('all that leaves by the portfolio', () => {
  test('holds nothing of what is private, in any form', async () => {
    const { slug, downSlug, innards } = await markedWorkshop()
    const outputs = await publicOutput(slug, downSlug)
    // Six pages and files, five pictures or more, the copy with as many, a snippet.
    expect(outputs.length).toBeGreaterThan(20)
    const forbidden: readonly (string | RegExp)[] = [
      ...Object.values(secrets),
      ...innards,
      String(amount),
      /86[,. ]?753/,
      /13\.37|61\.61/,
      /51\.43|0\.287|51[^\d]{1,6}25[^\d]{1,6}54/,
      /\bExif\0\0|x:xmpmeta|Photoshop 3\.0|JFXX|EXIF|XMP /,
      /api\/photos|localhost|127\.0\.0\.1/,
    ]
    for (const { name, bytes } of outputs) {
      const text = bytes.toString('latin1')
      // The address of what is down was asked for here, and is in no answer.
      expect(text.toLowerCase(), name).not.toContain(mark.toLowerCase())
      const told = forbidden.filter((one) =>
        typeof one === 'string' ? text.includes(one) : one.test(text),
      )
      expect(told.map(String), name).toEqual([])
    }
    // That it is the portfolio that was searched.
    const page = outputs.find(({ name }) => name === `/portfolio/${slug}`)
    expect(page?.bytes.toString()).toContain('What anybody may read.')
    expect(page?.bytes.toString()).toContain('front-after-1440.webp')
  })

  test('has no metadata in any picture', async () => {
    const { slug, downSlug } = await markedWorkshop()
    await publicOutput(slug, downSlug)
    const files = await readZip(await buffer(await openStaticCopy()))
    const pictures = [...files].filter(([name]) => /\.(?:webp|jpg)$/.test(name))
    expect(pictures.length).toBeGreaterThan(4)
    for (const [name, bytes] of pictures) {
      const read = ExifReader.load(bytes, { expanded: true })
      expect(
        read.exif ?? read.gps ?? read.xmp ?? read.iptc,
        name,
      ).toBeUndefined()
    }
  })

  test('would be seen to: the journal holds the marks, and tells them to its owner', async () => {
    const { job } = await markedWorkshop()
    const db = await database()
    expect((await db.costEntry.findFirst())?.words).toContain(mark)
    const listing = JSON.stringify(
      await readListingJsonLd(job.id, instant(arrival), 'http://localhost'),
    )
    expect(listing).toContain(mark)
    const page = await db.portfolioPage.findUnique({
      where: { pieceId: job.pieceId },
    })
    expect(page?.draft).toContain(mark)
  })
})
