import type { BoutReport, SetReport } from '../../../../analysis/report/setReport.js';
import type { Tolerance } from '../../../../analysis/scoring/tempoVerdict.js';
import { decimal, percentText, plusMinus } from '../../words/numbers.js';
import type { PhaseKind } from '../../words/phaseWords.js';
import { VERDICT_LEGEND } from '../../words/verdicts.js';
import { type Level, type RepValue, valuesPerRepChart } from '../charts/valuesPerRep.js';
import type { Markup } from '../layout/markup.js';
import { picture } from '../layout/picture.js';
import { shownPhaseKinds } from './repsTable.js';
import { type PhaseNames, phaseOfRep } from './wordsOfSet.js';

/** A planned 0 means no deliberate pause: up to this many seconds are none. */
const NO_PAUSE_SECONDS = 0.5;

function slackOf(planned: number, tolerance: Tolerance): number {
  return planned === 0 ? NO_PAUSE_SECONDS : Math.max(tolerance.seconds, tolerance.share * planned);
}

/** Reps in a row of which the same seconds are wanted: the stages of a set. */
interface PlannedRun {
  readonly seconds: number;
  readonly reps: readonly [number, number];
}

function plannedRuns(bout: BoutReport, kind: PhaseKind): readonly PlannedRun[] {
  const runs: PlannedRun[] = [];
  for (const rep of bout.reps) {
    const seconds = phaseOfRep(rep, kind)?.plannedSeconds ?? null;
    if (typeof seconds !== 'number') continue;
    const before = runs.at(-1);
    if (before?.seconds === seconds && before.reps[1] === rep.number - 1) {
      runs[runs.length - 1] = { seconds, reps: [before.reps[0], rep.number] };
    } else {
      runs.push({ seconds, reps: [rep.number, rep.number] });
    }
  }
  return runs;
}

function planName(seconds: number): string {
  return `plan ${decimal(seconds, Number.isInteger(seconds) ? 0 : 1)} s`;
}

function plannedLevels(bout: BoutReport, kind: PhaseKind, tolerance: Tolerance): readonly Level[] {
  return plannedRuns(bout, kind).map(({ seconds, reps }, index, runs) => ({
    value: seconds,
    // Stages that want the same are named once.
    name: runs.findIndex((run) => run.seconds === seconds) === index ? planName(seconds) : '',
    band: [seconds - slackOf(seconds, tolerance), seconds + slackOf(seconds, tolerance)],
    dashed: false,
    place: 'above',
    reps,
  }));
}

function chartOf(bout: BoutReport, kind: PhaseKind, title: string, tolerance: Tolerance): Markup {
  const values = bout.reps.flatMap((rep): RepValue[] => {
    const phase = phaseOfRep(rep, kind);
    if (phase === null) return [];
    return [
      {
        rep: rep.number,
        value: phase.seconds,
        uncertainty: phase.uncertaintySeconds,
        verdict: phase.verdict,
      },
    ];
  });
  return valuesPerRepChart({
    title,
    unit: `${title}, s`,
    values,
    levels: plannedLevels(bout, kind, tolerance),
    colour: `var(--${kind})`,
    ariaDescription: values.map((value) => `rep ${value.rep}: ${decimal(value.value, 1)} s`).join('; '),
    leastTop: 1,
  });
}

/** "0.3 s or 15 % of the plan, whichever is larger" */
function toleranceText({ seconds, share }: Tolerance): string {
  const fixed = `${decimal(seconds, Number.isInteger(seconds * 10) ? 1 : 2)} s`;
  return share === 0 ? fixed : `${fixed} or ${percentText(share)} of the plan, whichever is larger`;
}

/** Seconds of each phase of each rep against the plan. */
export function phasesPicture(
  report: SetReport,
  bout: BoutReport,
  name: string,
  words: PhaseNames,
  tolerance: Tolerance,
): Markup {
  const kinds = shownPhaseKinds(bout);
  const judged = bout.reps.flatMap((rep) => rep.phases).filter((phase) => phase.verdict !== null);
  const met = judged.filter((phase) => phase.verdict === 'met').length;
  const against =
    report.plan === null || judged.length === 0
      ? 'No tempo was prescribed, so nothing is judged; the circles show what was done.'
      : `${met} of ${judged.length} judged phases were as planned. The line is the plan and the band around it the tolerance (${toleranceText(tolerance)}). ${VERDICT_LEGEND} No mark: not judged.`;
  return picture({
    title: `${name}: seconds of each phase`,
    caption: against,
    wide: true,
    charts: kinds.map((kind) => chartOf(bout, kind, words[kind], tolerance)),
    numbers: {
      columns: ['Rep', ...kinds.flatMap((kind) => [`${words[kind]}, s`, 'plan, s', 'verdict'])],
      rows: bout.reps.map((rep) => [
        String(rep.number),
        ...kinds.flatMap((kind) => {
          const phase = phaseOfRep(rep, kind);
          if (phase === null) return ['–', '–', '–'];
          return [
            `${decimal(phase.seconds, 2)} ${plusMinus(phase.uncertaintySeconds, 2)}`,
            phase.plannedSeconds === null ? '–' : String(phase.plannedSeconds),
            phase.verdict ?? 'not judged',
          ];
        }),
      ]),
    },
  });
}
