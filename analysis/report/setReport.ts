import { z } from 'zod';
import { SET_SCHEMA_ID } from './setSchemaId.js';

/*
 * The set report: one plain value that every view is a pure function of.
 * Schema id `tempofilm.set/1`. Fields may be added, never renamed or removed without a new id.
 * Every time is real time in seconds (slow motion undone), on the clock of the film's container.
 */

const seconds = z.number();
const count = z.int().nonnegative();
const side = z.enum(['left', 'right']);
const limb = z.enum(['left', 'right', 'both']);
const plannedSeconds = z.union([z.number().nonnegative(), z.literal('X'), z.null()]);

const tempoSchema = z.object({
  eccentric: plannedSeconds,
  stretchedHold: plannedSeconds,
  concentric: plannedSeconds,
  contractedHold: plannedSeconds,
});

export const planSchema = z.object({
  stages: z.array(
    z.object({
      tempo: tempoSchema.nullable(),
      reps: z.object({ min: count, max: count }).nullable(),
      partials: z.boolean().optional(),
    }),
  ),
  restSeconds: z.number().nonnegative().nullable(),
});

const phaseSchema = z.object({
  kind: z.enum(['eccentric', 'stretched-hold', 'concentric', 'contracted-hold']),
  startSeconds: seconds,
  endSeconds: seconds,
  seconds: z.number().nonnegative(),
  uncertaintySeconds: z.number().nonnegative(),
  plannedSeconds,
  verdict: z.enum(['met', 'short', 'long', 'unclear']).nullable(),
  /** Moves only: seconds spent in the first and second half of the angle travelled. */
  firstHalfSeconds: z.number().nonnegative().nullable().optional(),
  secondHalfSeconds: z.number().nonnegative().nullable().optional(),
  /** Moves only: stillness inside the move, which belongs to the move. */
  stalls: z.array(z.object({ startSeconds: seconds, endSeconds: seconds, degrees: z.number() })).optional(),
});

const rangeSchema = z.object({
  degrees: z.number(),
  uncertaintyDegrees: z.number().nonnegative(),
  stretchedDegrees: z.number(),
  contractedDegrees: z.number(),
  /** Share of the baseline, 1 for the baseline itself; null where there is no baseline. */
  ofBaseline: z.number().nullable(),
  shortened: z.boolean(),
  shortenedAt: z.enum(['stretched', 'contracted', 'both']).nullable(),
});

const repSchema = z.object({
  number: z.int().positive(),
  side: limb,
  /** Number of the planned stage, from 1; null without a plan. */
  stage: z.int().positive().nullable(),
  complete: z.boolean(),
  partial: z.boolean(),
  failed: z.boolean(),
  startSeconds: seconds,
  endSeconds: seconds,
  phases: z.array(phaseSchema),
  range: rangeSchema.nullable(),
  concentricSpeedDegreesPerSecond: z.number().nullable(),
  /** Change of trunk angle during the concentric, degrees: described, not judged. */
  trunkSwingDegrees: z.number().nullable().optional(),
  /** Sticking region of an explosive or unprescribed lift, where the speed really dips. */
  stickingRegion: z
    .object({ startSeconds: seconds, endSeconds: seconds, degrees: z.number() })
    .nullable()
    .optional(),
});

const trendSchema = z.object({
  perRep: z.number(),
  interval: z.tuple([z.number(), z.number()]),
  probability: z.number(),
  clear: z.boolean(),
});

const boutSummarySchema = z.object({
  completeReps: count,
  partialReps: count,
  failedReps: count,
  timeUnderTensionSeconds: z.number().nonnegative(),
  /** 0 to 1; null where the plan prescribes no eccentric seconds. */
  deliveredLoweringShare: z.number().min(0).max(1).nullable(),
  deliveredLoweringSeconds: z.number().nonnegative().nullable().optional(),
  plannedLoweringSeconds: z.number().nonnegative().nullable().optional(),
  /** The final rep where control was never lost; null where it was lost at once, or no eccentric seconds are planned. */
  lastControlledRep: z.int().positive().nullable(),
  firstShortenedRep: z.int().positive().nullable(),
  /** Share of the quickest concentric speed lost by the last rep; null where a tempo was prescribed. */
  concentricSpeedLoss: z.number().nullable(),
  /** Rep after which the lifter changed from one stage's tempo to the next, beside the plan's. */
  stageSwitches: z
    .array(
      z.object({
        fromStage: z.int().positive(),
        afterRep: z.int().positive(),
        plannedAfterRep: z.object({ min: count, max: count }).nullable(),
      }),
    )
    .optional(),
  baselineRangeDegrees: z.number().nullable().optional(),
  /** How many earlier sets of the lifter the baseline is the median of; null where it is the bout's own first reps. */
  baselineEarlierSets: count.nullable().optional(),
  eccentricTrend: trendSchema.nullable().optional(),
  rangeTrend: trendSchema.nullable().optional(),
});

const boutSchema = z.object({
  side: limb,
  measuredSides: z.array(side),
  view: z.object({
    facing: z.enum(['left', 'right', 'front', 'back']),
    degreesOffSide: z.number(),
    /** Half width of the 95 % interval of `degreesOffSide`. */
    uncertaintyDegrees: z.number().nonnegative().optional(),
  }),
  startSeconds: seconds,
  endSeconds: seconds,
  reps: z.array(repSchema),
  summary: boutSummarySchema,
  /** Two-armed lifts from front or back: which arm leads and by how long; null within one frame. */
  leadingSide: z.object({ side, seconds: z.number(), uncertaintySeconds: z.number() }).nullable().optional(),
  /** Two-armed lifts from front or back: range of each arm. */
  sides: z
    .array(z.object({ side, rangeDegrees: z.number().nullable(), uncertaintyDegrees: z.number().nullable() }))
    .optional(),
});

const restSchema = z.object({
  kind: z.enum(['rest', 'side-change']),
  startSeconds: seconds,
  endSeconds: seconds,
  seconds: z.number().nonnegative(),
  plannedSeconds: z.number().nonnegative().nullable(),
});

const comparisonSchema = z.object({
  measure: z.enum(['range', 'eccentric-seconds', 'concentric-seconds', 'reps']),
  unit: z.enum(['degrees', 'seconds', 'reps']),
  left: z.number(),
  right: z.number(),
  /** Left minus right, with a 95 % interval. */
  difference: z.number(),
  interval: z.tuple([z.number(), z.number()]),
  /** Left over right; null where right is 0. */
  ratio: z.number().nullable(),
  different: z.boolean(),
});

const symmetrySchema = z.object({
  firstSide: side,
  measures: z.array(comparisonSchema),
  sentence: z.string(),
});

export const findingSchema = z.object({
  code: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  level: z.enum(['note', 'warning', 'problem']),
  message: z.string(),
  remedy: z.string().nullable(),
});

/** What was moved: kilograms or pounds, the lifter's own body, or the pin of a weight stack (its number). */
export const loadSchema = z.object({
  value: z.number().nonnegative().nullable(),
  unit: z.enum(['kg', 'lb', 'bodyweight', 'pin']),
});

export const setReportSchema = z.object({
  schema: z.literal(SET_SCHEMA_ID),
  film: z.object({
    file: z.string(),
    recordedAt: z.string().nullable(),
    durationSeconds: z.number().nonnegative(),
    width: count,
    height: count,
    frameRate: z.number().nonnegative(),
    variableFrameRate: z.boolean(),
    slowMotionFactor: z.number().positive(),
    rotationDegrees: z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]),
    mirrored: z.boolean(),
    framesInFilm: count,
    framesAnalyzed: count,
  }),
  pose: z.object({
    model: z.enum(['movenet-thunder', 'movenet-lightning']),
    quality: z.enum(['quick', 'standard', 'full']),
    meanConfidence: z.number().min(0).max(1),
  }),
  exercise: z.object({
    id: z.string(),
    name: z.string(),
    drivingAngle: z.string(),
    chosenBy: z.enum(['user', 'recognition']),
    /**
     * Present where nobody named the exercise. False: the movement alone does not tell, the id is `unconfirmed`, no
     * verdict is given, and `eccentric` and `concentric` only mean the two directions of the movement.
     */
    confirmed: z.boolean().optional(),
    /** What the movement looks most like, the likeliest first, with its share of the likelihood. */
    candidates: z
      .array(z.object({ id: z.string(), name: z.string(), confidence: z.number().min(0).max(1) }))
      .optional(),
  }),
  plan: planSchema.nullable(),
  bouts: z.array(boutSchema),
  rests: z.array(restSchema),
  symmetry: symmetrySchema.nullable(),
  quality: z.object({ usable: z.boolean(), findings: z.array(findingSchema) }),
  headline: z.string(),
  /** What the figures rest on, in words, and the cautions shown with them. */
  method: z
    .object({ programVersion: z.string(), stillness: z.string(), cautions: z.array(z.string()) })
    .optional(),
  load: loadSchema.nullable().optional(),
  /** One load a planned stage, where they differ; `load` is then the first of them. */
  stageLoads: z.array(loadSchema).nullable().optional(),
});

export type SetReport = z.infer<typeof setReportSchema>;
export type BoutReport = z.infer<typeof boutSchema>;
export type RepReport = z.infer<typeof repSchema>;
export type PhaseReport = z.infer<typeof phaseSchema>;
export type RangeReport = z.infer<typeof rangeSchema>;
export type RestReport = z.infer<typeof restSchema>;
export type SymmetryReport = z.infer<typeof symmetrySchema>;
export type Finding = z.infer<typeof findingSchema>;
export type BoutSummary = z.infer<typeof boutSummarySchema>;
