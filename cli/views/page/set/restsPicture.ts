import type { SetReport } from '../../../../analysis/report/setReport.js';
import { boutNames } from '../../words/boutNames.js';
import { clockText, decimal, secondsText } from '../../words/numbers.js';
import { filmTimelineChart, type Stretch } from '../charts/filmTimeline.js';
import type { Markup } from '../layout/markup.js';
import { picture } from '../layout/picture.js';

/** Work and rests along the film; null where the film shows one bout and no rest. */
export function restsPicture(report: SetReport): Markup | null {
  if (report.rests.length === 0) return null;
  const names = boutNames(report);
  const stretches: Stretch[] = [
    ...report.bouts.map((bout, index) => ({
      name: `${names[index]}, ${bout.reps.length} ${bout.reps.length === 1 ? 'rep' : 'reps'}`,
      kind: 'work' as const,
      startSeconds: bout.startSeconds,
      endSeconds: bout.endSeconds,
    })),
    ...report.rests.map((rest) => ({
      name: secondsText(rest.seconds, 0),
      kind: 'rest' as const,
      startSeconds: rest.startSeconds,
      endSeconds: rest.endSeconds,
    })),
  ];
  const told = report.rests.map((rest) => {
    const name = rest.kind === 'rest' ? 'Rest' : 'Change of side';
    const planned = rest.plannedSeconds === null ? '' : ` (planned ${secondsText(rest.plannedSeconds, 0)})`;
    return `${name} at ${clockText(rest.startSeconds)}: ${secondsText(rest.seconds, 0)}${planned}.`;
  });
  return picture({
    title: 'Work and rest',
    caption: `${told.join(' ')} Boxes are work, the thin bars between them rest. A change of side is never judged.`,
    wide: true,
    charts: [filmTimelineChart(stretches, report.film.durationSeconds, told.join(' '))],
    numbers: {
      columns: ['Kind', 'from, s', 'to, s', 'seconds', 'planned, s'],
      rows: report.rests.map((rest) => [
        rest.kind === 'rest' ? 'rest' : 'change of side',
        decimal(rest.startSeconds, 1),
        decimal(rest.endSeconds, 1),
        decimal(rest.seconds, 1),
        rest.plannedSeconds === null ? '–' : decimal(rest.plannedSeconds, 0),
      ]),
    },
  });
}
