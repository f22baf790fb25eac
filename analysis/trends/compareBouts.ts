import type { BoutReport, PhaseReport, RepReport, SymmetryReport } from '../report/setReport.js';
import { LIKE_VIEW_DEGREES } from '../scoring/earlierRange.js';
import { countsAsComplete } from '../scoring/fatigue.js';
import { compareSides, LEAST_SHARED_DEGREES, SHARED_SECONDS } from '../scoring/symmetry.js';
import { type Agreement, blandAltman } from './blandAltman.js';

/**
 * A value of one rep with the half width of its 95 % interval, to be held against another bout: it holds the error
 * that all reps of a bout share, as the comparison as a whole does.
 */
export interface RepValue {
  readonly value: number;
  readonly uncertainty: number;
}

/** One rep of each bout, the same in number; `difference` is second minus first. */
export interface PairedValue {
  readonly first: RepValue | null;
  readonly second: RepValue | null;
  readonly difference: RepValue | null;
  /** Whether the difference is more than the measurement alone would make. */
  readonly told: boolean;
}

export interface PairedRep {
  readonly number: number;
  readonly eccentric: PairedValue;
  readonly concentric: PairedValue;
  readonly range: PairedValue;
}

export interface WholeDifference {
  readonly measure: SymmetryReport['measures'][number]['measure'];
  readonly unit: SymmetryReport['measures'][number]['unit'];
  readonly first: number;
  readonly second: number;
  /** Second minus first, with a 95 % interval. */
  readonly difference: number;
  readonly interval: readonly [number, number];
  /** Whether the camera can really tell: the interval leaves out zero. */
  readonly told: boolean;
}

export interface BoutComparison {
  readonly whole: readonly WholeDifference[];
  readonly reps: readonly PairedRep[];
  /** Second minus first over the paired reps; null with fewer than three pairs. */
  readonly agreement: {
    readonly eccentricSeconds: Agreement | null;
    readonly rangeDegrees: Agreement | null;
  };
  /** False where the two were filmed from different views: degrees are then not compared. */
  readonly degreesCompared: boolean;
}

/** Compares two bouts of an exercise, rep by rep and as a whole. Differences are second minus first. */
export function compareBouts(first: BoutReport, second: BoutReport): BoutComparison {
  const degreesCompared = seenAlike(first, second);
  const reps = pairReps(first, second, degreesCompared);
  return {
    whole: wholeDifferences(first, second).filter((one) => degreesCompared || one.unit !== 'degrees'),
    reps,
    agreement: {
      eccentricSeconds: agreementOf(reps.map((rep) => rep.eccentric)),
      rangeDegrees: agreementOf(reps.map((rep) => rep.range)),
    },
    degreesCompared,
  };
}

/** From the same side of the body, or each limb from its own side. */
function seenAlike(first: BoutReport, second: BoutReport): boolean {
  const mirrors = { left: 'right', right: 'left', front: 'front', back: 'back' } as const;
  const otherLimb = first.side !== second.side && first.side !== 'both' && second.side !== 'both';
  const expected = otherLimb ? mirrors[first.view.facing] : first.view.facing;
  return (
    second.view.facing === expected &&
    Math.abs(first.view.degreesOffSide - second.view.degreesOffSide) <= LIKE_VIEW_DEGREES
  );
}

/** The method for left against right serves any two bouts: it is handed the second in the place of the left. */
function wholeDifferences(first: BoutReport, second: BoutReport): readonly WholeDifference[] {
  const compared = compareSides([
    { ...second, side: 'left' },
    { ...first, side: 'right' },
  ]);
  return (compared?.measures ?? []).map((measure) => ({
    measure: measure.measure,
    unit: measure.unit,
    first: measure.right,
    second: measure.left,
    difference: measure.difference,
    interval: measure.interval,
    told: measure.different,
  }));
}

function pairReps(first: BoutReport, second: BoutReport, degreesCompared: boolean): readonly PairedRep[] {
  const [firstReps, secondReps] = [first.reps.filter(countsAsComplete), second.reps.filter(countsAsComplete)];
  return Array.from({ length: Math.max(firstReps.length, secondReps.length) }, (_, index) => {
    const [one, other] = [firstReps[index], secondReps[index]];
    return {
      number: index + 1,
      eccentric: paired(secondsOf(one, 'eccentric'), secondsOf(other, 'eccentric'), true),
      concentric: paired(secondsOf(one, 'concentric'), secondsOf(other, 'concentric'), true),
      range: paired(rangeOf(one), rangeOf(other), degreesCompared),
    };
  });
}

function paired(first: RepValue | null, second: RepValue | null, comparable: boolean): PairedValue {
  if (first === null || second === null || !comparable)
    return { first, second, difference: null, told: false };
  const value = second.value - first.value;
  const uncertainty = Math.hypot(first.uncertainty, second.uncertainty);
  return { first, second, difference: { value, uncertainty }, told: Math.abs(value) > uncertainty };
}

function secondsOf(rep: RepReport | undefined, kind: PhaseReport['kind']): RepValue | null {
  const phase = rep?.phases.find((one) => one.kind === kind);
  if (phase === undefined) return null;
  return { value: phase.seconds, uncertainty: Math.hypot(phase.uncertaintySeconds, SHARED_SECONDS) };
}

function rangeOf(rep: RepReport | undefined): RepValue | null {
  const range = rep?.range ?? null;
  if (range === null) return null;
  return { value: range.degrees, uncertainty: Math.max(range.uncertaintyDegrees, LEAST_SHARED_DEGREES) };
}

function agreementOf(values: readonly PairedValue[]): Agreement | null {
  const pairs = values.filter((value) => value.difference !== null);
  return blandAltman(
    pairs.map((pair) => pair.second!.value),
    pairs.map((pair) => pair.first!.value),
  );
}
