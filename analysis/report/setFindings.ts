import type { Plan } from '../plan/plan.js';
import { concentricOf } from '../scoring/fatigue.js';
import { looksRamped } from '../scoring/speedRamp.js';
import type { FindingCode } from './findings.js';
import type { BoutReport } from './setReport.js';

/** With this share of the verdicts unclear, the film is too coarse for the plan's tolerance. */
const MANY_UNCLEAR = 0.5;

/** What is worth knowing about how the set was scored, beside its numbers. */
export function setFindings(bouts: readonly BoutReport[], plan: Plan | null): readonly FindingCode[] {
  const reps = bouts.flatMap((bout) => bout.reps);
  const whole = reps.filter((rep) => rep.complete);
  const verdicts = whole
    .flatMap((rep) => rep.phases.map((phase) => phase.verdict))
    .filter((one) => one !== null);
  const unclear = verdicts.filter((verdict) => verdict === 'unclear').length;
  const slowExplosive = whole.some((rep) => {
    const lift = concentricOf(rep);
    return lift?.plannedSeconds === 'X' && lift.verdict === 'long';
  });
  const stages = plan?.stages ?? [];
  const codes: readonly (FindingCode | false)[] = [
    // Stages of different tempo are meant to differ.
    stages.length < 2 && bouts.some(looksRamped) && 'speed-ramp',
    repeatsASide(bouts) && 'several-bouts',
    slowExplosive && 'explosive-lift-slower',
    verdicts.length > 0 && unclear / verdicts.length >= MANY_UNCLEAR && 'verdicts-unclear',
    stages.some((stage) => stage.tempo?.eccentric === 'X') && 'quick-eccentric-not-judged',
    stages.some((stage) => stage.partials === true) && 'partials-planned',
    reps.some((rep) => rep.failed) && 'lift-not-made',
  ];
  return codes.filter((code) => code !== false);
}

/** Several bouts of one side that do not overlap: rest-pauses, or several sets in one film. */
function repeatsASide(bouts: readonly BoutReport[]): boolean {
  return new Set(bouts.map((bout) => bout.side)).size < bouts.length;
}
