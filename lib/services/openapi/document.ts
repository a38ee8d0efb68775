import { z } from 'zod'
import {
  type ZodOpenApiOperationObject,
  type ZodOpenApiPathsObject,
  createDocument,
} from 'zod-openapi'
import { newAir } from '#services/air/schema'
import { binPlace } from '#services/bin/schema'
import { deviceCookie } from '#services/devices/door'
import { photosKept, uploadFields } from '#services/intake/schema'
import { newJob } from '#services/jobs/schema'
import { airAnswer } from '#services/openapi/air-answer'
import { binAnswer } from '#services/openapi/bin-answer'
import { benchAnswer } from '#services/openapi/bench-answer'
import {
  changeListAnswer,
  renumberedAnswer,
  workshopChangesAnswer,
} from '#services/openapi/change-answer'
import { chaptersAnswer } from '#services/openapi/chapters-answer'
import { jobAnswer, jobListAnswer } from '#services/openapi/job-answer'
import { materialsAnswer } from '#services/openapi/materials-answer'
import {
  keptPlacingAnswer,
  placingAnswer,
} from '#services/openapi/placing-answer'
import {
  lightAnswer,
  pairAnswer,
  pairListAnswer,
} from '#services/openapi/pair-answer'
import {
  materialsCsvQuery,
  materialsTextQuery,
} from '#services/materials/schema'
import { moneyQuery } from '#services/money/schema'
import { moneyAnswer } from '#services/openapi/money-answer'
import { problemAnswer } from '#services/openapi/problem-answer'
import {
  productAnswer,
  productListAnswer,
} from '#services/openapi/product-answer'
import { programLicence, programVersion } from '#services/openapi/program'
import { airQuery, benchQuery, pageQuery } from '#services/openapi/queries'
import { stepAnswer } from '#services/openapi/step-answer'
import { timelineAnswer } from '#services/openapi/timeline-answer'
import { writeUpAnswer } from '#services/openapi/write-up-answer'
import { newPlacing } from '#services/placing/schema'
import { handPoints, newPair, pairPictureQuery } from '#services/pairs/schema'
import { newProductIn } from '#services/shelf/schema'
import { photoMending } from '#services/photos/schema'
import { sheetQuery } from '#services/sheets/schema'
import {
  coatsToCount,
  newStep,
  noteLine,
  stepMove,
} from '#services/steps/schema'
import { writeUpQuery } from '#services/write-ups/schema'
import { renditionNames } from '#core/photos/rendition-sizes'

/** The description of the HTTP interface: OpenAPI 3.1, made from the schemas that check what comes in. */
export function openApiDocument() {
  return createDocument({
    openapi: '3.1.1',
    info: {
      title: 'Coatbook',
      version: programVersion,
      description:
        'A job journal for refinished furniture: photos stamp the steps, and the dry time between coats is computed for each surface. Instants are ISO 8601 in UTC, lengths of time are in minutes, temperatures in °C, relative humidity in percent, money in minor units. What is computed never shortens the time on a label.',
      license: { name: programLicence, identifier: programLicence },
    },
    servers: [{ url: '/' }],
    // One of them, or none at the desk computer while no passphrase is set.
    security: [{ token: [] }, { device: [] }, { deskDevice: [] }, {}],
    components: { securitySchemes },
    paths: withRefusals({
      ...journalPaths,
      ...photoPaths,
      ...exportPaths,
      ...pairPaths,
      ...binPaths,
      ...mendingPaths,
      '/api/health': {
        get: {
          operationId: 'readHealth',
          summary: 'Whether the program answers, and which version it is',
          security: [],
          responses: {
            '200': json(health, 'It answers.'),
            default: problems,
          },
        },
      },
      '/api/backup': {
        get: {
          operationId: 'readBackup',
          summary: 'The whole journal as one zip',
          description:
            'Originals as they came, `journal.json` with its JSON Schema, and a manifest of hashes. A fetch that broke off is gone on with by Range and, with the tag it was given, If-Range; it then gets the backup that it began with, for a day, or for as long as the journal stays as it is.',
          requestParams: {
            header: z.object({
              Range: z.string().optional(),
              'If-Range': z.string().optional(),
            }),
          },
          responses: {
            '200': picture('application/zip'),
            '206': picture('application/zip'),
            '304': { description: 'You have it already.' },
            default: problems,
          },
        },
      },
      '/api/openapi.json': {
        get: {
          operationId: 'readInterface',
          summary: 'This document',
          responses: {
            '200': json(z.looseObject({ openapi: z.string() }), 'OpenAPI 3.1.'),
            default: problems,
          },
        },
      },
    }),
  })
}

const health = z
  .object({ status: z.literal('ok'), version: z.string() })
  .meta({ id: 'Health' })

const problems = {
  description: 'What is wrong and what to do about it.',
  content: { 'application/problem+json': { schema: problemAnswer } },
}

const securitySchemes = {
  token: {
    type: 'http',
    scheme: 'bearer',
    description:
      'The token of a program, made in Workshop on the desk computer.',
  },
  device: {
    type: 'apiKey',
    in: 'cookie',
    name: deviceCookie.network,
    description:
      'What a browser on the local network got when it was paired or signed in.',
  },
  deskDevice: {
    type: 'apiKey',
    in: 'cookie',
    name: deviceCookie.desk,
    description:
      'What a browser at the desk computer got when it signed in. Without a passphrase it needs none.',
  },
} as const

/** The paths with the answers by which each operation turns somebody away. */
function withRefusals(paths: ZodOpenApiPathsObject): ZodOpenApiPathsObject {
  const turnedAway = (description: string) => ({ ...problems, description })
  return Object.fromEntries(
    Object.entries(paths).map(([path, operations]) => [
      path,
      Object.fromEntries(
        Object.entries(operations).map(
          ([method, operation]: [string, ZodOpenApiOperationObject]) => [
            method,
            {
              ...operation,
              responses: {
                ...operation.responses,
                ...(operation.security?.length === 0
                  ? {}
                  : { '401': turnedAway('Not signed in.') }),
                '403': turnedAway(
                  'By a name that is not the workshop’s, or from a page of another site.',
                ),
              },
            },
          ],
        ),
      ),
    ]),
  )
}

const inJob = { path: z.object({ job: z.string() }) }

/** A request that may have to be sent again, because its answer was lost on the way. */
const inJobOnce = {
  ...inJob,
  header: z.object({
    'Idempotency-Key': z.string().max(100).optional().meta({
      description:
        'The sender’s own name for this request, such as a UUID. Sent again with the same key it is not done again, and answered as it was the first time.',
    }),
  }),
}

function json(schema: z.ZodType, description: string) {
  return { description, content: { 'application/json': { schema } } }
}

function jsonBody(schema: z.ZodType) {
  return { required: true, content: { 'application/json': { schema } } }
}

const inTheBin = {
  '204': { description: 'In the bin, or there already.' },
  default: problems,
}

const journalPaths: ZodOpenApiPathsObject = {
  '/api/jobs': {
    get: {
      operationId: 'readJobs',
      summary: 'Jobs, the newest first, a page at a time',
      requestParams: { query: pageQuery },
      responses: { '200': json(jobListAnswer, 'A page.'), default: problems },
    },
    post: {
      operationId: 'addJob',
      summary: 'Start a job with its pieces and their surfaces',
      requestBody: jsonBody(newJob),
      responses: { '201': json(jobAnswer, 'Started.'), default: problems },
    },
  },
  '/api/jobs/{job}': {
    get: {
      operationId: 'readJob',
      summary: 'One job',
      requestParams: inJob,
      responses: { '200': json(jobAnswer, 'The job.'), default: problems },
    },
    delete: {
      operationId: 'removeJob',
      summary: 'Put a job in the bin, with its photos and steps',
      requestParams: inJob,
      responses: inTheBin,
    },
  },
  '/api/jobs/{job}/steps': {
    post: {
      operationId: 'addStep',
      summary: 'Write down a step',
      description:
        'Its photos become photos of the step and of its surfaces. Where coats of its kind are counted and no number is given, each surface gets its next one.',
      requestParams: inJobOnce,
      requestBody: jsonBody(newStep),
      responses: {
        '201': json(stepAnswer, 'Written down.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/steps/{step}': {
    get: {
      operationId: 'readStep',
      summary: 'One step',
      requestParams: { path: z.object({ job: z.string(), step: z.string() }) },
      responses: { '200': json(stepAnswer, 'The step.'), default: problems },
    },
    put: {
      operationId: 'changeStep',
      summary: 'Change all that a step says',
      requestParams: { path: z.object({ job: z.string(), step: z.string() }) },
      requestBody: jsonBody(newStep),
      responses: { '200': json(stepAnswer, 'Changed.'), default: problems },
    },
    delete: {
      operationId: 'removeStep',
      summary: 'Take a step out of a job; its photos stay',
      requestParams: { path: z.object({ job: z.string(), step: z.string() }) },
      responses: { '204': { description: 'Taken out.' }, default: problems },
    },
  },
  '/api/jobs/{job}/timeline': {
    get: {
      operationId: 'readTimeline',
      summary: 'What was done to each surface, with its dry checks',
      requestParams: inJob,
      responses: {
        '200': json(timelineAnswer, 'The timeline.'),
        default: problems,
      },
    },
  },
  '/api/products': {
    get: {
      operationId: 'readProducts',
      summary: 'Everything on the shelf, by name',
      responses: {
        '200': json(productListAnswer, 'The shelf.'),
        default: problems,
      },
    },
    post: {
      operationId: 'addProduct',
      summary: 'Put a product on the shelf, with its label',
      requestBody: jsonBody(newProductIn()),
      responses: {
        '201': json(productAnswer, 'On the shelf.'),
        default: problems,
      },
    },
  },
  '/api/products/{product}': {
    get: {
      operationId: 'readProduct',
      summary: 'One product',
      requestParams: { path: z.object({ product: z.string() }) },
      responses: {
        '200': json(productAnswer, 'The product.'),
        default: problems,
      },
    },
    put: {
      operationId: 'changeProduct',
      summary: 'Change all that is known of a product',
      requestParams: { path: z.object({ product: z.string() }) },
      requestBody: jsonBody(newProductIn()),
      responses: { '200': json(productAnswer, 'Changed.'), default: problems },
    },
  },
  '/api/air': {
    post: {
      operationId: 'addAir',
      summary: 'Keep readings of the workshop’s air',
      description:
        'A reading for a moment that has one already takes its place. The file of a logger has a header that names a time, a temperature in °C or °F and a relative humidity; times without an offset are read in the workshop’s zone. Where its dates can be read in two ways it is refused with an error for `order`; send it again with that.',
      requestParams: { query: airQuery },
      requestBody: {
        required: true,
        content: {
          'application/json': { schema: newAir },
          'text/csv': { schema: z.string() },
        },
      },
      responses: { '201': json(airAnswer, 'Kept.'), default: problems },
    },
  },
  '/api/bench': {
    get: {
      operationId: 'readBench',
      summary: 'What is wet, ready, closing and past, across all jobs',
      requestParams: { query: benchQuery },
      responses: { '200': json(benchAnswer, 'The bench.'), default: problems },
    },
  },
  '/api/bench.ics': {
    get: {
      operationId: 'readBenchCalendar',
      summary: 'The bench as a calendar to subscribe to',
      requestParams: {
        query: z.object({
          feed: z.string().optional().meta({
            description:
              'The secret of an address that was made in Workshop, for calendar programs, which cannot sign in.',
          }),
        }),
      },
      description:
        'RFC 5545: a moment for each coat that gets ready, each window that closes and each finish that is cured, across all jobs, from 30 days ago on. A moment keeps its UID when its time changes.',
      responses: {
        '200': {
          description: 'The calendar.',
          content: { 'text/calendar': { schema: z.string() } },
        },
        default: problems,
      },
    },
  },
}

const bytes = z.string().meta({
  override: { type: 'string', contentMediaType: 'application/octet-stream' },
})

const picture = (...types: readonly string[]) => ({
  description: 'The bytes.',
  content: Object.fromEntries(types.map((type) => [type, { schema: bytes }])),
})

const upload = z.object({
  file: z.array(bytes).min(1).meta({ description: 'One or more photos.' }),
  role: uploadFields.shape.role,
  view: uploadFields.shape.view,
  step: uploadFields.shape.step,
  surface: z
    .array(z.string())
    .optional()
    .meta({ description: 'A surface that the photos show; repeatable.' }),
  modified: z.array(z.string()).optional().meta({
    description:
      'Each file’s own date, in milliseconds since 1970, in the order of the files.',
  }),
})

/** What originals come as; renditions are WebP. */
const photoTypes = [
  'image/jpeg',
  'image/png',
  'image/webp',
  'image/tiff',
  'image/avif',
  'image/heic',
]

const photoPaths: ZodOpenApiPathsObject = {
  '/api/jobs/{job}/placing': {
    get: {
      operationId: 'readPlacing',
      summary: 'Where photos that nobody has placed yet may belong',
      description:
        'Bursts in order of time, each with its proposals, the first one first. They follow from the times, from what was done before and from how the colours moved; nothing is placed by asking.',
      requestParams: inJob,
      responses: {
        '200': json(placingAnswer, 'The proposals.'),
        default: problems,
      },
    },
    post: {
      operationId: 'confirmPlacing',
      summary: 'Place photos in one go, all or none',
      description:
        'In order of time. Photos of the same new work become photos of one new step.',
      requestParams: inJob,
      requestBody: jsonBody(newPlacing),
      responses: {
        '201': json(keptPlacingAnswer, 'Placed.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/placing/{placing}': {
    delete: {
      operationId: 'undoPlacing',
      summary: 'Take back what was placed in one go',
      description:
        'A photo that was placed elsewhere since stays there; a step that got other photos or was filled in stays too.',
      requestParams: {
        path: z.object({ job: z.string(), placing: z.string() }),
      },
      responses: { '204': { description: 'Taken back.' }, default: problems },
    },
  },
  '/api/jobs/{job}/photos': {
    post: {
      operationId: 'keepPhotos',
      summary: 'Keep photos, byte for byte',
      requestParams: inJobOnce,
      requestBody: {
        required: true,
        content: { 'multipart/form-data': { schema: upload } },
      },
      responses: {
        '201': json(photosKept, 'Kept, at least some.'),
        default: problems,
      },
    },
  },
  '/api/photos/{photo}/{rendition}': {
    get: {
      operationId: 'readPhoto',
      summary: 'A photo: upright and without what its file says, or as it came',
      requestParams: {
        path: z.object({
          photo: z.string(),
          rendition: z
            .enum([...renditionNames, 'original'])
            .meta({ description: 'From small to large; or the bytes kept.' }),
        }),
      },
      responses: {
        '200': picture(...photoTypes),
        '206': picture(...photoTypes),
        '304': { description: 'You have it already.' },
        default: problems,
      },
    },
  },
}

const text = (type: string, description: string) => ({
  description,
  content: { [type]: { schema: z.string() } },
})

const exportPaths: ZodOpenApiPathsObject = {
  '/api/portfolio.zip': {
    get: {
      operationId: 'copyPortfolio',
      summary: 'The portfolio as plain files that work from any host',
      description:
        'All that is out, and nothing else: pages of HTML that point at each other by the names of their files, with their style and their pictures.',
      responses: { '200': picture('application/zip'), default: problems },
    },
  },
  '/api/jobs/{job}/materials.json': {
    get: {
      operationId: 'readMaterials',
      summary: 'What went on the job, with amounts, costs and links',
      requestParams: inJob,
      responses: {
        '200': json(materialsAnswer, 'The materials list.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/materials.csv': {
    get: {
      operationId: 'readMaterialsCsv',
      summary: 'The materials list as a table',
      requestParams: { ...inJob, query: materialsCsvQuery },
      responses: {
        '200': text('text/csv', 'RFC 4180, with a header.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/materials.txt': {
    get: {
      operationId: 'readMaterialsText',
      summary: 'The materials list as text',
      requestParams: { ...inJob, query: materialsTextQuery },
      responses: {
        '200': text('text/plain', 'The list.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/money': {
    get: {
      operationId: 'readMoney',
      summary: 'What the job cost, must be sold for and earned',
      description:
        'With the arithmetic. Each line is rounded once; sums are sums of lines. For the owner alone: nothing that is written for others is made from it.',
      requestParams: { ...inJob, query: moneyQuery },
      responses: {
        '200': json(moneyAnswer, 'The money.'),
        default: problems,
      },
    },
  },
  ...Object.fromEntries(
    (
      [
        ['listing', 'Listing', 'The sale listing'],
        ['video', 'VideoDescription', 'The description of a video'],
        ['caption', 'Caption', 'A short caption with tags'],
        ['care', 'CareCard', 'The care card for the buyer'],
        ['report', 'Report', 'The report for a client who ordered the job'],
        ['photos', 'PhotoWords', 'Every photo in words, a line each'],
      ] as const
    ).map(([name, operation, summary]) => [
      `/api/jobs/{job}/write-ups/${name}`,
      {
        get: {
          operationId: `read${operation}`,
          summary,
          description:
            'Plain text, or by the Accept header JSON with the facts behind each sentence.',
          requestParams: { ...inJob, query: writeUpQuery },
          responses: {
            '200': {
              description: 'The text.',
              content: {
                'text/plain': { schema: z.string() },
                'application/json': { schema: writeUpAnswer },
              },
            },
            default: problems,
          },
        },
      },
    ]),
  ),
  '/api/jobs/{job}/write-ups/care.pdf': {
    get: {
      operationId: 'readCareCardPdf',
      summary: 'The care card, to be printed on half a sheet',
      requestParams: inJob,
      responses: { '200': picture('application/pdf'), default: problems },
    },
  },
  '/api/jobs/{job}/write-ups/listing.jsonld': {
    get: {
      operationId: 'readListingJsonLd',
      summary: 'The sale listing in the words of schema.org',
      requestParams: inJob,
      responses: {
        '200': {
          description: 'A Product with its Offer.',
          content: { 'application/ld+json': { schema: z.looseObject({}) } },
        },
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/captions': {
    post: {
      operationId: 'keepCaptions',
      summary: 'Keep the captions of a video, and find its chapters',
      description:
        'WebVTT or SubRip, in any encoding, told by its content; at most 5 MB. New captions take the place of the ones before and of chapters that the owner set; the same again change nothing. The chapters enter the video description.',
      requestParams: inJob,
      requestBody: {
        required: true,
        content: {
          'text/vtt': { schema: z.string() },
          'application/x-subrip': { schema: z.string() },
        },
      },
      responses: {
        '200': json(chaptersAnswer, 'Kept; its chapters, and what to ask.'),
        default: problems,
      },
    },
  },
  '/api/workshop/mark': {
    get: {
      operationId: 'readMark',
      summary: 'The workshop’s own mark, as it stands on sheets',
      responses: { '200': picture('image/png'), default: problems },
    },
    post: {
      operationId: 'keepMark',
      summary: 'Set the workshop’s own mark',
      description:
        'One picture, PNG, JPEG or WebP among others; it is written anew, so nothing but its pixels is kept.',
      requestBody: {
        required: true,
        content: {
          'multipart/form-data': {
            schema: z.object({
              file: z.string().meta({ format: 'binary' }),
            }),
          },
        },
      },
      responses: {
        '201': json(
          z.object({ width: z.int(), height: z.int() }),
          'Kept; its size in pixels.',
        ),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/sheets/{file}': {
    get: {
      operationId: 'readSheet',
      summary: 'A before/after picture',
      requestParams: {
        path: z.object({
          job: z.string(),
          file: z.string().meta({
            description:
              'A shape (1x1, 4x5, 9x16, 16x9), a dot and a format (jpg, png, webp); or a paper (letter, a4) and pdf; or a shape, -reveal, and webp (animated) or mp4 (where ffmpeg is found).',
            examples: ['1x1.jpg', '16x9.webp', 'a4.pdf', '9x16-reveal.mp4'],
          }),
        }),
        query: sheetQuery,
      },
      responses: {
        '200': picture(
          'image/jpeg',
          'image/png',
          'image/webp',
          'application/pdf',
          'video/mp4',
        ),
        default: problems,
      },
    },
  },
}

const mendingPaths: ZodOpenApiPathsObject = {
  '/api/jobs/{job}/changes': {
    get: {
      operationId: 'readChanges',
      summary: 'What was changed in a job, the latest first',
      description:
        'Steps, the numbers of coats, where photos belong and when they were taken, and what is told of the job and its pieces. At most the last 100.',
      requestParams: inJob,
      responses: {
        '200': json(changeListAnswer, 'The changes.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/changes/{change}': {
    delete: {
      operationId: 'undoChange',
      summary: 'Undo a change',
      description:
        'Refused with 409 where what it changed was changed again since, or is gone: what came later is never overwritten.',
      requestParams: {
        path: z.object({ job: z.string(), change: z.string() }),
      },
      responses: { '204': { description: 'Undone.' }, default: problems },
    },
  },
  '/api/changes': {
    get: {
      operationId: 'readWorkshopChanges',
      summary: 'What was changed outside of jobs, the latest first',
      description:
        'Products of the shelf, and how far the clocks of cameras are off. At most the last 100.',
      responses: {
        '200': json(workshopChangesAnswer, 'The changes.'),
        default: problems,
      },
    },
  },
  '/api/changes/{change}': {
    delete: {
      operationId: 'undoWorkshopChange',
      summary: 'Undo a change of the shelf or of a clock',
      description:
        'With a clock go the times of its photos. Refused with 409 where what it changed was changed again since, or where work was done with a product that it added.',
      requestParams: { path: z.object({ change: z.string() }) },
      responses: { '204': { description: 'Undone.' }, default: problems },
    },
  },
  '/api/jobs/{job}/renumbering': {
    post: {
      operationId: 'renumberCoats',
      summary: 'Number coats of one kind anew, in the order of the work',
      requestParams: inJob,
      requestBody: jsonBody(coatsToCount),
      responses: {
        '200': json(renumberedAnswer, 'The coats that got another number.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/steps/{step}/notes': {
    post: {
      operationId: 'addNote',
      summary: 'Add a line to the note of a step',
      requestParams: {
        ...inJobOnce,
        path: z.object({ job: z.string(), step: z.string() }),
      },
      requestBody: jsonBody(noteLine),
      responses: {
        '201': json(stepAnswer, 'The step.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/steps/{step}/place': {
    post: {
      operationId: 'moveStep',
      summary: 'Have a step change places with its neighbour on a surface',
      description:
        'Refused with 409 where their times tell which came first: mend the times then.',
      requestParams: { path: z.object({ job: z.string(), step: z.string() }) },
      requestBody: jsonBody(stepMove),
      responses: { '204': { description: 'Moved.' }, default: problems },
    },
  },
}

const binPaths: ZodOpenApiPathsObject = {
  '/api/bin': {
    get: {
      operationId: 'readBin',
      summary: 'What is in the bin, the last removed first',
      description:
        'What went in with something larger is not listed by itself; it comes back with it, and goes for good with it. At most 500 photos and 500 other things.',
      responses: { '200': json(binAnswer, 'The bin.'), default: problems },
    },
  },
  '/api/bin/restore': {
    post: {
      operationId: 'takeBack',
      summary: 'Take something out of the bin, with what went in with it',
      description:
        'What belongs to something that is in the bin too is refused with 409: bring that back first.',
      requestBody: jsonBody(binPlace),
      responses: { '204': { description: 'Back.' }, default: problems },
    },
  },
  '/api/jobs/{job}/pieces/{piece}': {
    delete: {
      operationId: 'removePiece',
      summary:
        'Put a piece in the bin, with its surfaces and what was done to them alone',
      requestParams: {
        path: z.object({ job: z.string(), piece: z.string() }),
      },
      responses: inTheBin,
    },
  },
  '/api/jobs/{job}/surfaces/{surface}': {
    delete: {
      operationId: 'removeSurface',
      summary: 'Put a surface in the bin, with what was done to it alone',
      requestParams: {
        path: z.object({ job: z.string(), surface: z.string() }),
      },
      responses: inTheBin,
    },
  },
  '/api/jobs/{job}/photos/{photo}': {
    patch: {
      operationId: 'mendPhoto',
      summary: 'Mend when a photo was taken and what it shows',
      description:
        'What is absent stays as it is. The time and the rest are kept as changes of their own, which can be undone.',
      requestParams: {
        path: z.object({ job: z.string(), photo: z.string() }),
      },
      requestBody: jsonBody(photoMending),
      responses: { '204': { description: 'Mended.' }, default: problems },
    },
    delete: {
      operationId: 'removePhoto',
      summary: 'Put a photo in the bin',
      requestParams: {
        path: z.object({ job: z.string(), photo: z.string() }),
      },
      responses: inTheBin,
    },
  },
}

const pairPaths: ZodOpenApiPathsObject = {
  '/api/jobs/{job}/pairs': {
    get: {
      operationId: 'readPairs',
      summary: 'The before/after pairs of a job',
      description:
        'Pairs are found by the views typed on the photos, else by what these show. The answer gives those known already and does not wait for more: what is new is found and aligned meanwhile.',
      requestParams: inJob,
      responses: {
        '200': json(pairListAnswer, 'The pairs.'),
        default: problems,
      },
    },
    post: {
      operationId: 'addPair',
      summary: 'Say that two photos belong together, and align them',
      requestParams: inJob,
      requestBody: jsonBody(newPair),
      responses: {
        '201': json(pairAnswer, 'Kept, aligned or not.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/pairs/{pair}/light': {
    get: {
      operationId: 'readPairLight',
      summary:
        'How the light of an after would be brought to that of its before',
      description:
        'It is told from what did not change, such as floor and wall, and refused where too little of that is around the piece, or where more than a gentle change would be needed.',
      requestParams: {
        path: z.object({ job: z.string(), pair: z.string() }),
      },
      responses: {
        '200': json(lightAnswer, 'What is done, or why nothing is.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/pairs/{pair}/points': {
    put: {
      operationId: 'alignByHand',
      summary: 'Lay the photos of a pair on each other by four points',
      description:
        'That says too that they belong together. When a photo is turned later, its points turn with it.',
      requestParams: {
        path: z.object({ job: z.string(), pair: z.string() }),
      },
      requestBody: jsonBody(handPoints),
      responses: {
        '200': json(pairAnswer, 'Laid so.'),
        default: problems,
      },
    },
    delete: {
      operationId: 'alignByPictures',
      summary: 'Align a pair by its pictures again, in place of the points',
      requestParams: {
        path: z.object({ job: z.string(), pair: z.string() }),
      },
      responses: {
        '200': json(pairAnswer, 'Aligned, or not.'),
        default: problems,
      },
    },
  },
  '/api/jobs/{job}/pairs/{pair}/{side}': {
    get: {
      operationId: 'readPairPicture',
      summary: 'One picture of an aligned pair, in the frame that both share',
      requestParams: {
        path: z.object({
          job: z.string(),
          pair: z.string(),
          side: z.enum(['before', 'after']),
        }),
        query: pairPictureQuery,
      },
      responses: {
        '200': picture('image/webp'),
        '304': { description: 'You have it already.' },
        default: problems,
      },
    },
  },
}
