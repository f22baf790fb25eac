import type { Exercise } from '../exercises/exercise.js';
import type { Plan } from '../plan/plan.js';
import { formatReps } from '../plan/stage.js';
import { medianSeconds } from '../scoring/boutSummary.js';
import { eccentricOf } from '../scoring/fatigue.js';
import { repsInWords } from '../scoring/firstOfTwoInARow.js';
import { loneShortenedReps } from '../scoring/range.js';
import type { BoutReport } from './setReport.js';

/**
 * The answer in one sentence, for a tired lifter: what was delivered of the plan, where control and range ended; or,
 * without a plan, how many reps at what pace.
 */
export function headline(bouts: readonly BoutReport[], exercise: Exercise, plan: Plan | null = null): string {
  const [first] = bouts;
  if (first === undefined) return `No reps of the ${exercise.name.toLowerCase()} were found.`;
  if (bouts.length === 1) return sentence(onlyBout(first, exercise, plan));
  const told = bouts.map((bout) => `${bout.side}: ${oneOfSeveral(bout, exercise, plan)}`);
  const sides = new Set(bouts.map((bout) => bout.side));
  if (sides.size > 1) return sentence(told.join('; '));
  const total = bouts.reduce((sum, bout) => sum + bout.summary.completeReps, 0);
  return sentence(
    `${countOf(total, 'rep')} in ${bouts.length} bouts with rests between: ${bouts
      .map((bout) => oneOfSeveral(bout, exercise, plan))
      .join('; then ')}`,
  );
}

function onlyBout(bout: BoutReport, exercise: Exercise, plan: Plan | null): string {
  const [first, ...others] = partsOf(bout, exercise, plan);
  return others.length === 0 ? first! : `${first}; ${listed(others)}`;
}

function oneOfSeveral(bout: BoutReport, exercise: Exercise, plan: Plan | null): string {
  return partsOf(bout, exercise, plan).join(', ');
}

/** The opening with counts, then what is worth adding. */
function partsOf(bout: BoutReport, exercise: Exercise, plan: Plan | null): readonly string[] {
  if (bout.summary.completeReps === 0) return [`no complete rep (${oddReps(bout).join(', ')})`];
  return [
    opening(bout, exercise, plan),
    controlled(bout, exercise),
    stageSwitches(bout),
    rangeHeld(bout),
  ].filter((part) => part !== null);
}

function opening(bout: BoutReport, exercise: Exercise, plan: Plan | null): string {
  const { deliveredLoweringSeconds: delivered, plannedLoweringSeconds: planned } = bout.summary;
  const reps = repCount(bout, plan);
  const { eccentric, concentric } = exercise.words;
  if (typeof delivered === 'number' && typeof planned === 'number') {
    return `delivered ${Math.round(delivered)} of ${Math.round(planned)} planned ${eccentric} seconds in ${reps}`;
  }
  const down = medianSeconds(bout, 'eccentric');
  const up = medianSeconds(bout, 'concentric');
  if (down === null || up === null) return reps;
  return `${reps}, a typical ${eccentric} ${down.toFixed(1)} s and ${concentric} ${up.toFixed(1)} s`;
}

function repCount(bout: BoutReport, plan: Plan | null): string {
  const { completeReps } = bout.summary;
  const wanted = plannedReps(plan);
  const outside = wanted !== null && (completeReps < wanted.min || completeReps > wanted.max);
  const count = outside
    ? `${completeReps} of ${formatReps(wanted)} planned reps`
    : countOf(completeReps, 'rep');
  const odd = oddReps(bout);
  return odd.length === 0 ? count : `${count} (and ${odd.join(', ')})`;
}

/** Reps that do not count, by kind. */
function oddReps({ summary, reps }: BoutReport): readonly string[] {
  const cut = reps.filter((rep) => !rep.complete).length;
  return [
    summary.partialReps > 0 ? `${summary.partialReps} partial` : null,
    summary.failedReps > 0 ? `${summary.failedReps} failed` : null,
    cut > 0 ? `${cut} cut off by the film` : null,
  ].filter((part) => part !== null);
}

function plannedReps(plan: Plan | null): { readonly min: number; readonly max: number } | null {
  const stages = (plan?.stages ?? []).filter((stage) => stage.partials !== true);
  if (stages.length === 0 || stages.some((stage) => stage.reps === null)) return null;
  return {
    min: stages.reduce((sum, stage) => sum + stage.reps!.min, 0),
    max: stages.reduce((sum, stage) => sum + stage.reps!.max, 0),
  };
}

function controlled({ summary, reps }: BoutReport, exercise: Exercise): string | null {
  if (summary.deliveredLoweringShare === null) return null;
  const last = summary.lastControlledRep;
  const { eccentric } = exercise.words;
  if (last === null) return `the ${eccentric} was quicker than planned from the first rep`;
  const judged = reps.filter((rep) => rep.complete && typeof eccentricOf(rep)?.plannedSeconds === 'number');
  if (last !== judged.at(-1)?.number) return `the last controlled rep was rep ${last}`;
  const lone = judged.filter((rep) => eccentricOf(rep)?.verdict === 'short').map((rep) => rep.number);
  if (lone.length > 0) return `the ${eccentric} was quicker than planned in ${repsInWords(lone)}`;
  return judged.some((rep) => eccentricOf(rep)?.verdict === 'unclear')
    ? null
    : `the ${eccentric} stayed controlled to the last rep`;
}

function stageSwitches({ summary }: BoutReport): string | null {
  const switches = (summary.stageSwitches ?? []).map(({ afterRep, plannedAfterRep: planned }) => {
    if (planned === null) return `after rep ${afterRep}`;
    const asPlanned = afterRep >= planned.min && afterRep <= planned.max;
    return asPlanned
      ? `after rep ${afterRep} as planned`
      : `after rep ${afterRep} (planned: ${formatReps(planned)})`;
  });
  return switches.length === 0 ? null : `the tempo changed ${listed(switches)}`;
}

function rangeHeld({ summary, reps }: BoutReport): string | null {
  const from = summary.firstShortenedRep;
  if (from === null) {
    const compared = reps.some((rep) => typeof rep.range?.ofBaseline === 'number');
    const lone = loneShortenedReps(reps);
    if (lone.length > 0) return `range held but for ${repsInWords(lone)}`;
    return compared ? 'range held to the end' : null;
  }
  const shortened = reps.find((rep) => rep.number === from);
  if (shortened?.failed === true) return 'range held up to the lift that was not made';
  const share = shortened?.range?.ofBaseline ?? null;
  // Where the second joint alone shortened, the driving angle may have lost nothing.
  const drop =
    share === null || share >= 0.95
      ? ''
      : ` (${Math.round((1 - share) * 100)} % below ${typeof summary.baselineEarlierSets === 'number' ? 'your earlier sets' : 'the first reps'})`;
  return `range shortened from rep ${from}${drop}`;
}

function listed(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')}, and ${parts.at(-1)}`;
}

function countOf(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
