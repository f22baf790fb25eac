import { basename } from 'node:path';
import type { SessionReport, SessionSet } from '../../session/sessionReport.js';
import {
  controlText,
  dayOfLastTime,
  deliveredText,
  faultOf,
  lastTimeText,
  loweringText,
  markedReps,
  pauseText,
  plannedLoadWords,
  plannedRepsText,
  REP_MARKS,
  restText,
  sessionNotes,
  sessionSentence,
  sessionSetName,
  slotName,
} from '../session/sessionWords.js';
import { dayText, timeOfDayText } from '../words/days.js';
import { percentText } from '../words/numbers.js';
import { type RestRange, restRangesChart } from './charts/restRanges.js';
import { type DeliveredOfSet, setsAgainstLastTimeChart } from './charts/setsAgainstLastTime.js';
import { pageDocument } from './layout/document.js';
import { html, type Markup } from './layout/markup.js';
import { numbersTable, picture } from './layout/picture.js';
import { type Fact, plainHeader, plainMethod } from './layout/plainSections.js';

/** A workout as one self-contained page: the sentence, a line a set beside the same set last time, the pictures. */
export function sessionPage(session: SessionReport): string {
  const title = session.name ?? 'A workout';
  const body = html`${plainHeader(title, [sessionSentence(session)], factsOf(session))}
<main>
${setsSection(session)}
${wordsSection(session)}
<section aria-labelledby="pictures-title"><h2 id="pictures-title">In pictures</h2>
<div class="pictures large">${deliveredPicture(session)}${restsPicture(session)}</div></section>
${plainMethod([
  REP_MARKS,
  ...sessionNotes(session),
  '“Delivered” is the share of the planned lowering seconds that were really spent in the complete reps; “control” is the last rep before two in a row came down quicker than planned. Extra seconds, reps or range are not better in themselves.',
])}
</main>
<footer><p>Made by tempofilm from ${String(session.sets.length)} films.</p></footer>`;
  return pageDocument({ title, body, script: null });
}

function factsOf({ sets, lifter, missing, orderIsRecorded }: SessionReport): readonly Fact[] {
  const stamps = sets.flatMap(({ report }) => report?.film.recordedAt ?? []).sort();
  const facts: Fact[] = [];
  if (lifter !== null) facts.push({ name: 'Lifter', value: lifter });
  if (orderIsRecorded && stamps[0] !== undefined) {
    facts.push({
      name: 'Filmed',
      value: `${dayText(stamps[0])}, ${timeOfDayText(stamps[0])} to ${timeOfDayText(stamps.at(-1)!)}`,
    });
  }
  facts.push({ name: 'Films', value: String(sets.length) });
  if (missing.length > 0) facts.push({ name: 'No film for', value: missing.map(slotName).join('; ') });
  return facts;
}

function setsSection(session: SessionReport): Markup {
  const day = dayOfLastTime(session);
  const columns = [
    '',
    'Exercise',
    'Load',
    'Reps',
    'Planned reps',
    'Delivered',
    'Lowering, s',
    'Control',
    'Rest before',
    'Planned rest',
  ];
  const told = session.sets.some(({ lastTime }) => lastTime !== null);
  return html`<section aria-labelledby="sets-title"><h2 id="sets-title">Set by set</h2>
${numbersTable('Sets in order of recording', {
  columns: told ? [...columns, day === null ? 'Last time' : `Last time, ${day}`] : columns,
  rows: session.sets.map((set, index) => {
    const cells = [
      String(index + 1),
      sessionSetName(set),
      plannedLoadWords(set),
      markedReps(set),
      plannedRepsText(set),
      deliveredText(set.bouts),
      loweringText(set.bouts),
      controlText(set.bouts),
      restText(set).replace('·', ''),
      set.restBefore === null ? '' : pauseText(set),
      ...(told ? [lastTimeText(set, day)] : []),
    ];
    return cells.map((cell) => cell || '–');
  }),
})}</section>`;
}

/** What each film says in its own sentence. */
function wordsSection({ sets }: SessionReport): Markup {
  return html`<section aria-labelledby="words-title"><h2 id="words-title">In words</h2>
<ol>${sets.map((set) => html`<li><p><strong>${sessionSetName(set)}</strong> (${basename(set.film)}): ${faultOf(set) ?? set.report?.headline ?? ''}</p></li>`)}</ol></section>`;
}

function deliveredPicture({ sets }: SessionReport): Markup | null {
  const values = sets.flatMap((set, index): DeliveredOfSet[] => [
    ...deliveredOf(set.bouts, index + 1, 'now'),
    ...deliveredOf(set.lastTime?.bouts ?? [], index + 1, 'last time'),
  ]);
  if (values.length === 0) return null;
  const caption =
    'Share of the planned lowering seconds delivered in each set: filled now, hollow last time. Triangles point to the side of the body, circles are both sides.';
  return picture({
    title: 'Delivered lowering, set by set',
    caption,
    charts: [setsAgainstLastTimeChart(values, sets.length, caption)],
    numbers: {
      columns: ['Set', 'side', 'when', 'delivered'],
      rows: values.map(({ place, side, when, share }) => [String(place), side, when, percentText(share)]),
    },
  });
}

function deliveredOf(
  bouts: SessionSet['bouts'],
  place: number,
  when: DeliveredOfSet['when'],
): readonly DeliveredOfSet[] {
  return bouts.flatMap(({ side, deliveredLoweringShare: share }, index) =>
    share === null || bouts.findIndex((bout) => bout.side === side) !== index
      ? []
      : [{ place, side, when, share }],
  );
}

function restsPicture({ sets }: SessionReport): Markup | null {
  const rests = sets.flatMap((set, index): RestRange[] => {
    if (set.restBefore === null) return [];
    const { plannedPause } = set;
    return [
      {
        name: `before ${index + 1}, ${set.slot?.exercise.name ?? 'not in the plan'}`,
        ...set.restBefore,
        plannedSeconds: plannedPause?.kind === 'rest' ? plannedPause.seconds : null,
      },
    ];
  });
  if (rests.length === 0) return null;
  const caption =
    'Time from the last move of one set to the first of the next; a bar covers what it may have been, the upright mark is what the plan wants. Rests are not judged.';
  return picture({
    title: 'Rests',
    caption,
    charts: [restRangesChart(rests, caption)],
    numbers: {
      columns: ['Rest', 'at least, s', 'at most, s', 'planned, s'],
      rows: rests.map(({ name, leastSeconds, mostSeconds, plannedSeconds }) => [
        name,
        String(Math.round(leastSeconds)),
        String(Math.round(mostSeconds)),
        plannedSeconds === null ? '–' : String(plannedSeconds),
      ]),
    },
  });
}
