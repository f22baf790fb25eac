/// <reference lib="dom" />
import type { PlayerData } from './playFilm.js';

/** Runs in the page, by itself: moves the cursor of the curves, marks the rep, and tells the phase in words. */
export function followTime(): void {
  const data = JSON.parse(document.getElementById('set-data')!.textContent!) as PlayerData;
  const rows = [...document.querySelectorAll<HTMLElement>('tr[data-rep-from]')];
  const words = document.getElementById('player-words')!;
  const curves = [...document.querySelectorAll<SVGSVGElement>('svg.curve')].map((svg, index) => {
    const number = (name: string) => Number(svg.dataset[name]);
    const holder = svg.parentElement!;
    const cursor = document.createElement('div');
    cursor.className = 'cursor';
    const dot = document.createElement('div');
    dot.className = 'cursor-dot';
    holder.append(cursor, dot);
    holder.addEventListener('click', (event) => {
      const box = svg.getBoundingClientRect();
      const share = ((event as MouseEvent).clientX - box.left) / box.width;
      const along = (share - number('left')) / (number('right') - number('left'));
      const seconds = number('from') + along * (number('to') - number('from'));
      document.dispatchEvent(new CustomEvent('tempofilm-seek', { detail: { seconds } }));
    });
    return { svg, holder, cursor, dot, number, curve: data.bouts[index]?.curve ?? null };
  });

  const angleAt = (curve: (typeof curves)[number]['curve'], seconds: number): number | null => {
    if (curve === null) return null;
    let low = 0;
    let high = curve.seconds.length - 1;
    if (high < 1 || seconds < curve.seconds[0]! || seconds > curve.seconds[high]!) return null;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (curve.seconds[middle]! <= seconds) low = middle;
      else high = middle;
    }
    const gap = curve.seconds[high]! - curve.seconds[low]!;
    if (gap > 0.5) return null;
    const share = (seconds - curve.seconds[low]!) / gap;
    return curve.degrees[low]! * (1 - share) + curve.degrees[high]! * share;
  };

  const reps = data.bouts.flatMap((bout) => bout.reps);
  const outside = (seconds: number): string => {
    if (reps.every((rep) => seconds < rep.from)) return 'before the first rep';
    return reps.every((rep) => seconds >= rep.to) ? 'after the last rep' : 'rest';
  };

  /** Puts cursor and dot of a curve where a time and its angle lie; hides them beside the curve. */
  const moveCursor = (
    part: (typeof curves)[number],
    seconds: number,
    angle: number | null,
    running: boolean,
  ) => {
    const from = part.number('from');
    const to = part.number('to');
    const shown = seconds >= from && seconds <= to;
    part.cursor.hidden = !shown;
    part.dot.hidden = !shown || angle === null;
    if (!shown) return;
    const along = (seconds - from) / (to - from);
    const share = part.number('left') + along * (part.number('right') - part.number('left'));
    part.cursor.style.left = `${share * 100}%`;
    part.dot.style.left = `${share * 100}%`;
    if (angle !== null) {
      const up = (angle - part.number('low')) / (part.number('high') - part.number('low'));
      const height = part.number('bottom') + up * (part.number('top') - part.number('bottom'));
      part.dot.style.top = `${height * 100}%`;
    }
    const scroller = part.holder.parentElement!;
    const at = share * part.holder.clientWidth;
    if (at < scroller.scrollLeft + 40 || at > scroller.scrollLeft + scroller.clientWidth - 40) {
      scroller.scrollLeft = at - scroller.clientWidth * (running ? 0.2 : 0.5);
    }
  };

  /** "Left arm, rep 3: lowering 1.2 s of 4 s planned, 57°" */
  const told = (bout: PlayerData['bouts'][number], seconds: number, angle: number | null): string => {
    const now = (part: { from: number; to: number }) => seconds >= part.from && seconds < part.to;
    const rep = bout.reps.find(now);
    const phase = rep?.phases.find(now);
    let line = bout.name;
    if (rep !== undefined) line += `, rep ${rep.number}`;
    if (phase !== undefined) {
      line += `: ${phase.word} ${(seconds - phase.from).toFixed(1)} s`;
      if (phase.planned === 'X') line += ' (planned: explosive)';
      else if (phase.planned !== null && phase.planned > 0) line += ` of ${phase.planned} s planned`;
    }
    if (angle !== null && bout.degreesTold) line += `, ${Math.round(angle)}°`;
    return line;
  };

  document.addEventListener('tempofilm-time', (event) => {
    const { seconds, running } = (event as CustomEvent<{ seconds: number; running: boolean }>).detail;
    const lines: string[] = [];
    data.bouts.forEach((bout, index) => {
      const part = curves[index];
      if (part === undefined) return;
      const angle = angleAt(part.curve, seconds);
      moveCursor(part, seconds, angle, running);
      if (!part.cursor.hidden) lines.push(told(bout, seconds, angle));
    });
    words.textContent = lines.length === 0 ? outside(seconds) : lines.join('; ');
    for (const row of rows) {
      const inside = seconds >= Number(row.dataset['repFrom']) && seconds < Number(row.dataset['repTo']);
      row.classList.toggle('current', inside);
    }
  });
}
