import { z } from 'zod';
import { Failure } from '../../core/failure.js';
import { JOINT_ANGLES } from '../../core/motion/jointAngle.js';
import { flagRead, numberRead, parseValidatedYaml, textRead } from '../plan/validatedYaml.js';
import { CATALOGUE, findExercise } from './catalogue.js';
import type { Exercise } from './exercise.js';

const REMEDY =
  'Give each exercise an id and a name, and either "like" (the id of a similar one) or limbs, drivingAngle, start, concentric and workingRange.';

const pair = z.tuple([numberRead(-90, 200), numberRead(-90, 200)], 'expected two numbers: [least, most]');
const range = z.strictObject({ stretched: pair, contracted: pair });

const exerciseSchema = z.strictObject({
  id: textRead((text) => {
    if (/^[a-z0-9]+(-[a-z0-9]+)*$/.test(text)) return text;
    throw new Failure('usage', `"${text}" is no id: write lower-case words joined by hyphens.`);
  }),
  name: z.string().min(1),
  like: z.string().optional(),
  limbs: z.enum(['one-arm', 'two-arms', 'one-leg', 'two-legs']).optional(),
  drivingAngle: z.enum(JOINT_ANGLES).optional(),
  start: z.enum(['stretched', 'contracted']).optional(),
  concentric: z.enum(['raises', 'lowers']).optional(),
  workingRange: range.optional(),
  views: z
    .array(z.enum(['side', 'front', 'rear', 'oblique']))
    .min(1)
    .optional(),
  filming: z.string().min(1).optional(),
  caveat: z.string().min(1).optional(),
  contractedEndLoaded: flagRead.optional(),
  stretchedEndLoaded: flagRead.optional(),
  words: z
    .strictObject({
      eccentric: z.enum(['lowering', 'return']).optional(),
      concentric: z.enum(['lift', 'pull', 'press']).optional(),
      stretchedHold: z.string().optional(),
      contractedHold: z.string().optional(),
    })
    .optional(),
});

type Written = z.output<typeof exerciseSchema>;

/**
 * Reads the user's own exercises, YAML or JSON.
 *
 * ```yaml
 * exercises:
 *   - id: towel-row
 *     name: Towel row
 *     like: single-arm-row         # everything not given is taken from this one
 *     workingRange: { stretched: [10, 20], contracted: [80, 100] }
 *   - id: wrist-free-curl
 *     name: Wrist-free curl
 *     limbs: one-arm               # one-arm, two-arms, one-leg or two-legs
 *     drivingAngle: elbow-flexion  # the joint angle that times it
 *     start: stretched             # where a rep begins: stretched or contracted
 *     concentric: raises           # the lift makes the angle larger (raises) or smaller (lowers)
 *     workingRange: { stretched: [5, 15], contracted: [110, 135] }   # degrees at each end
 * ```
 *
 * @returns the user's exercises alone.
 * @throws Failure (usage) with file, line and column.
 */
export function parseCustomExercises(text: string, fileName: string): readonly Exercise[] {
  const schema = z
    .strictObject({ exercises: z.array(exerciseSchema, 'expected a list of exercises') })
    .superRefine(({ exercises }, context) => {
      for (const [index, written] of exercises.entries()) {
        const fault = faultOf(written, exercises.slice(0, index));
        if (fault === null) continue;
        context.addIssue({ code: 'custom', path: ['exercises', index, fault.field], message: fault.message });
      }
    });
  return parseValidatedYaml(text, schema, fileName, REMEDY).exercises.map(exerciseOf);
}

interface Fault {
  readonly field: keyof Written;
  readonly message: string;
}

/** What the schema alone cannot see. */
function faultOf(written: Written, before: readonly Written[]): Fault | null {
  if ([...CATALOGUE, ...before].some((known) => known.id === written.id)) {
    return { field: 'id', message: `there is already an exercise "${written.id}".` };
  }
  if (written.like !== undefined) {
    try {
      findExercise(written.like);
    } catch (error) {
      if (error instanceof Failure) return { field: 'like', message: `${error.message} ${error.remedy}` };
      throw error;
    }
  } else {
    const missing = (['limbs', 'drivingAngle', 'start', 'concentric', 'workingRange'] as const).find(
      (field) => written[field] === undefined,
    );
    if (missing !== undefined) return { field: missing, message: 'this is needed where there is no "like".' };
  }
  return directionFault(exerciseOf(written));
}

function directionFault({ workingRangeDegrees, concentric }: Exercise): Fault | null {
  const { stretched, contracted } = workingRangeDegrees;
  if ([stretched, contracted].some(([least, most]) => least > most)) {
    return { field: 'workingRange', message: 'each end is written [least, most].' };
  }
  const apart = concentric === 'raises' ? contracted[0] - stretched[1] : stretched[0] - contracted[1];
  return apart > 0
    ? null
    : {
        field: 'workingRange',
        message: `a concentric that ${concentric} the angle cannot lead from ${stretched.join('–')}° to ${contracted.join('–')}°.`,
      };
}

function exerciseOf(written: Written): Exercise {
  const base = written.like === undefined ? PLAIN : findExercise(written.like);
  const contractedEndLoaded = written.contractedEndLoaded ?? base.contractedEndLoaded;
  // Another angle or range makes what the like one says of its second angle untrue.
  const keepsSecond = written.drivingAngle === undefined || written.drivingAngle === base.drivingAngle;
  // How the like one is held may be the very difference.
  const { held: _, companion, usualExcursionDegrees, ...kept } = base;
  const keepsRange = keepsSecond && written.workingRange === undefined;
  return {
    ...kept,
    ...(keepsSecond && companion !== undefined ? { companion } : {}),
    ...(keepsRange && usualExcursionDegrees !== undefined ? { usualExcursionDegrees } : {}),
    id: written.id,
    name: written.name,
    limbs: written.limbs ?? base.limbs,
    drivingAngle: written.drivingAngle ?? base.drivingAngle,
    secondAngle: keepsSecond ? base.secondAngle : null,
    secondRangeDegrees: keepsSecond ? base.secondRangeDegrees : null,
    secondAngleCountsForRange: keepsSecond && base.secondAngleCountsForRange,
    defaultStart: written.start ?? base.defaultStart,
    concentric: written.concentric ?? base.concentric,
    workingRangeDegrees: written.workingRange ?? base.workingRangeDegrees,
    advisedViews: written.views ?? base.advisedViews,
    filming: written.filming ?? base.filming,
    caveat: written.caveat ?? base.caveat,
    contractedEndLoaded,
    stretchedEndLoaded: written.stretchedEndLoaded ?? base.stretchedEndLoaded,
    words: {
      eccentric: written.words?.eccentric ?? base.words.eccentric,
      concentric: written.words?.concentric ?? base.words.concentric,
      stretchedHold: written.words?.stretchedHold ?? base.words.stretchedHold,
      contractedHold:
        written.words?.contractedHold ?? (contractedEndLoaded ? base.words.contractedHold : 'pause'),
    },
  };
}

/** What is assumed of an exercise that is like none of the catalogue. */
const PLAIN: Exercise = {
  id: '',
  name: '',
  limbs: 'two-arms',
  drivingAngle: 'elbow-flexion',
  secondAngle: null,
  defaultStart: 'stretched',
  concentric: 'raises',
  workingRangeDegrees: { stretched: [0, 15], contracted: [90, 130] },
  secondRangeDegrees: null,
  advisedViews: ['side'],
  filming:
    'Phone side-on to the joint that moves, at its height, with that limb in the picture all the time.',
  visibility: 'yes',
  caveat: null,
  secondAngleCountsForRange: false,
  contractedEndLoaded: false,
  stretchedEndLoaded: false,
  words: { eccentric: 'lowering', concentric: 'lift', stretchedHold: 'pause', contractedHold: 'pause' },
};
