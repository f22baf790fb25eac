import { plannedLoads } from '../../../analysis/plan/plannedLoads.js';
import { formatReps } from '../../../analysis/plan/stage.js';
import type { SessionSlot } from '../../../analysis/session/sessionSlots.js';
import type { BoutFigures } from '../../history/sets/figures.js';
import type { SessionReport, SessionSet } from '../../session/sessionReport.js';
import { dayText } from '../words/days.js';
import { counted } from '../words/grammar.js';
import { decimal, percentText } from '../words/numbers.js';
import { controlOf, loadWords } from '../words/setWords.js';

const SIDES = { left: 'L ', right: 'R ', both: '' } as const;
/** A rest known to within these seconds is told as one value. */
const ONE_VALUE_SECONDS = 6;

/** The workout in one sentence. */
export function sessionSentence({ name, sets, missing }: SessionReport): string {
  const answered = sets.filter((set) => set.report?.quality.usable === true);
  const measured = new Set(answered.map((set) => set.slot)).size;
  const planned = new Set([...sets.flatMap((set) => set.slot ?? []), ...missing]).size;
  const summaries = answered.flatMap((set) => set.report!.bouts.map((bout) => bout.summary));
  const delivered = sum(summaries.map((summary) => summary.deliveredLoweringSeconds ?? 0));
  const wanted = sum(summaries.map((summary) => summary.plannedLoweringSeconds ?? 0));
  const start = `${name === null ? '' : `${name}: `}${measured} of ${counted(planned, 'planned set')} measured`;
  if (wanted === 0) return `${start}.`;
  return `${start}; delivered ${Math.round(delivered)} of ${Math.round(wanted)} planned lowering seconds (${percentText(delivered / wanted)}).`;
}

/** The planned set by name: "A Curl 2", with the letter of its pair and the number of the set. */
export function slotName({ planned, exercise, setNumber }: SessionSlot): string {
  const pair = planned.pair === null ? '' : `${planned.pair} `;
  const number = planned.sets === 1 && setNumber === 1 ? '' : ` ${setNumber}`;
  return `${pair}${exercise.name}${number}`;
}

export function sessionSetName({ slot, fault }: SessionSet): string {
  if (slot !== null) return slotName(slot);
  return fault === null ? 'not in the plan' : 'not measured';
}

export function plannedLoadWords({ slot }: SessionSet): string {
  return slot === null ? '' : loadWords(plannedLoads(slot.planned));
}

/** Complete reps a side; ▼ where fewer were done than planned, ▲ where more. */
export function markedReps({ slot, bouts }: SessionSet): string {
  const planned = slot === null ? null : plannedReps(slot);
  return bouts
    .map(({ side, completeReps: reps }) => {
      const mark = planned === null ? '' : reps < planned.min ? '▼' : reps > planned.max ? '▲' : '';
      return `${SIDES[side]}${reps}${mark}`;
    })
    .join(' ');
}

export const REP_MARKS = '▼ fewer reps than planned, ▲ more.';

/** Reps the plan wants of the set, in words; empty where it says nothing. */
export function plannedRepsText({ slot }: SessionSet): string {
  const planned = slot === null ? null : plannedReps(slot);
  return planned === null ? '' : formatReps(planned);
}

function plannedReps({ planned }: SessionSlot): { readonly min: number; readonly max: number } | null {
  const stages = planned.plan.stages.filter((stage) => stage.partials !== true);
  if (stages.length === 0 || stages.some((stage) => stage.reps === null)) return null;
  return {
    min: sum(stages.map((stage) => stage.reps!.min)),
    max: sum(stages.map((stage) => stage.reps!.max)),
  };
}

function repsText(bouts: readonly BoutFigures[]): string {
  return bouts.map((bout) => `${SIDES[bout.side]}${bout.completeReps}`).join(' ');
}

export function deliveredText(bouts: readonly BoutFigures[]): string {
  return bouts
    .flatMap(({ deliveredLoweringShare: share }) => (share === null ? [] : [percentText(share)]))
    .join(' ');
}

export function loweringText(bouts: readonly BoutFigures[]): string {
  return bouts
    .flatMap(({ medianEccentricSeconds: seconds }) => (seconds === null ? [] : [decimal(seconds, 1)]))
    .join(' ');
}

/** The last controlled rep a side; empty where nothing can be said. */
export function controlText(bouts: readonly BoutFigures[]): string {
  const texts = bouts.flatMap((bout) => {
    const text = controlOf(bout);
    return text === '·' ? [] : [`${SIDES[bout.side]}${text}`];
  });
  return texts.join(', ');
}

/** One value where the rest is known well, a range where the phone's stamp leaves it open. */
export function restText({ restBefore }: SessionSet): string {
  if (restBefore === null) return '·';
  const { leastSeconds, mostSeconds } = restBefore;
  const middle = Math.round((leastSeconds + mostSeconds) / 2);
  if (mostSeconds - leastSeconds <= ONE_VALUE_SECONDS)
    return `${middle} s ±${Math.ceil((mostSeconds - leastSeconds) / 2)}`;
  return `${Math.round(leastSeconds)}–${Math.round(mostSeconds)} s`;
}

/** The pause the plan wants, in words; empty where it says nothing. */
export function pauseText({ plannedPause }: SessionSet): string {
  switch (plannedPause?.kind) {
    case 'rest':
      return `${plannedPause.seconds} s`;
    case 'back-to-back':
      return 'none';
    case 'side-change':
      return 'other side';
    case undefined:
      return '';
  }
}

/** The rest before a set and, in brackets, what was planned. */
export function restAgainstPlan(set: SessionSet): string {
  const planned = set.restBefore === null ? '' : pauseText(set);
  return planned === '' ? restText(set) : `${restText(set)} (${planned})`;
}

/** The day of the last session where every set has the same, so that it need not stand in each line. */
export function dayOfLastTime({ sets }: SessionReport): string | null {
  const days = new Set(
    sets.flatMap(({ lastTime }) => (lastTime === null ? [] : [dayText(lastTime.recordedAt.instant)])),
  );
  return days.size === 1 ? [...days][0]! : null;
}

/** The same set last time: its reps and what it delivered, after its day where that is not told above. */
export function lastTimeText({ lastTime }: SessionSet, dayAbove: string | null): string {
  if (lastTime === null) return '';
  const told = [repsText(lastTime.bouts), deliveredText(lastTime.bouts)].filter((text) => text !== '');
  const day = dayAbove === null ? `${dayText(lastTime.recordedAt.instant)}: ` : '';
  return `${day}${told.join(', ')}`;
}

/** Why a film has no figures; null where it has some. */
export function faultOf({ report, fault }: SessionSet): string | null {
  return fault ?? (report?.quality.usable === false ? report.headline : null);
}

/** What is to be known about order, rests and last time. */
export function sessionNotes({ sets, orderIsRecorded }: SessionReport): readonly string[] {
  const notes: string[] = [];
  if (!orderIsRecorded) {
    notes.push(
      'Some films do not say when they were recorded, so their order is that of the dates of their files, and no rest is told beside them. Copy films from the phone unchanged.',
    );
  }
  const rests = sets.flatMap(({ restBefore }) => restBefore ?? []);
  if (rests.some((rest) => rest.mostSeconds - rest.leastSeconds > ONE_VALUE_SECONDS)) {
    notes.push(
      'A rest is a range where it cannot be told whether the phone stamps the start or the end of a recording.',
    );
  }
  if (
    orderIsRecorded &&
    sets.slice(1).some((set, index) => set.restBefore === null && hasReps(set) && hasReps(sets[index]!))
  ) {
    notes.push('No rest is told where the films’ times contradict one another.');
  }
  if (rests.length > 0)
    notes.push('Rests run from the last move of one set to the first of the next; they are not judged.');
  if (sets.some(({ lastTime }) => lastTime?.invented === true))
    notes.push('Last time was invented for demonstration.');
  return notes;
}

function hasReps({ bouts }: SessionSet): boolean {
  return bouts.length > 0;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
