// Reads what the browser's own tracing tells of a page's thread: how long it worked for each frame, and at what.

/** What an event of the trace is work on; what is not named here is `other`. */
const KINDS = {
  scripting: ['FunctionCall', 'EventDispatch', 'FireAnimationFrame', 'TimerFire', 'RunMicrotasks', 'EvaluateScript', 'MinorGC', 'MajorGC',
    'FireIdleCallback', 'V8.GCScavenger', 'V8.GCFinalizeMC', 'V8.GC_MC_INCREMENTAL', 'BlinkGC.AtomicPhase', 'v8.callFunction'],
  layout: ['UpdateLayoutTree', 'Layout', 'InvalidateLayout', 'RecalculateStyles', 'HitTest', 'ParseHTML', 'ScheduleStyleRecalculation'],
  painting: ['PrePaint', 'Paint', 'Layerize', 'Commit', 'UpdateLayer', 'UpdateLayerTree', 'CompositeLayers', 'RasterTask', 'PaintImage', 'Decode Image'],
};

const kindOf = (name) => Object.keys(KINDS).find((kind) => KINDS[kind].includes(name)) ?? 'other';

/**
 * The frames of a drag: `dragging`, one `{work, wall, by}` for each frame from the first move of a pointer to the last, in
 * milliseconds: for how long the page's thread ran, the clock's time meanwhile, and the first by kind of work. A busy machine
 * lets the second grow, not the first. `letGo` is the longest task from then on, `drawn` how many frames came to the screen.
 */
export function framesOf({ traceEvents }) {
  const moves = traceEvents.filter(({ name, args }) => name === 'EventDispatch' && args?.data?.type === 'pointermove');
  if (moves.length === 0) {
    throw new Error('the page heard of no move');
  }
  const [{ pid, tid }] = moves;
  const main = traceEvents.filter((event) => event.pid === pid && event.tid === tid).sort((a, b) => a.ts - b.ts || b.dur - a.dur);
  const tasks = main.filter(({ name, ph }) => name === 'RunTask' && ph === 'X');
  const taskOf = (ts) => tasks.findLast((task) => task.ts <= ts && ts <= task.ts + task.dur);
  const [first, last] = [moves[0], moves.at(-1)].map(({ ts }) => ts);
  const begins = main.filter(({ name, ts }) => name === 'BeginMainThreadFrame' && ts >= (taskOf(first)?.ts ?? first))
    .map(({ ts }) => taskOf(ts)?.ts ?? ts);
  const end = begins.find((ts) => ts > last) ?? last;
  const starts = begins.filter((ts) => ts < end);
  const frames = starts.map((start, index) => ({ start, end: starts[index + 1] ?? end, work: 0, wall: 0, by: {} }));
  const frameOf = (ts) => frames.findLast((frame) => frame.start <= ts && ts < frame.end);
  for (const { ts, dur, tdur } of tasks) {
    const frame = frameOf(ts);
    if (frame) {
      frame.work += tdur / 1000;
      frame.wall += dur / 1000;
    }
  }
  for (const { ts, own, name } of ownTimes(main)) {
    const frame = frameOf(ts);
    if (frame) {
      frame.by[kindOf(name)] = (frame.by[kindOf(name)] ?? 0) + own / 1000;
    }
  }
  const after = tasks.filter(({ ts }) => ts >= end).map(({ tdur }) => tdur / 1000);
  const drawn = traceEvents.filter(({ name, pid: other, ts }) => name === 'DrawFrame' && other === pid && ts >= starts[0] && ts < end);
  return { dragging: frames, letGo: Math.max(0, ...after), drawn: drawn.length };
}

/** How long the thread ran for each event without those that lie within it; in microseconds, as the trace has it. */
function ownTimes(events) {
  const open = [];
  const all = [];
  for (const { ts, dur, tdur, name, ph } of events) {
    if (ph !== 'X' || tdur === undefined) {
      continue;
    }
    while (open.length > 0 && open.at(-1).end <= ts) {
      open.pop();
    }
    if (open.length > 0) {
      open.at(-1).own -= tdur;
    }
    const event = { ts, end: ts + dur, own: tdur, name };
    open.push(event);
    all.push(event);
  }
  return all;
}

/** The average time by kind of work, in milliseconds for each frame. */
export function parts(frames) {
  const kinds = [...Object.keys(KINDS), 'other'];
  const sum = (kind) => frames.reduce((total, { by }) => total + (by[kind] ?? 0), 0);
  return Object.fromEntries(kinds.map((kind) => [kind, sum(kind) / Math.max(1, frames.length)]));
}

/** The value that this share of the values does not exceed. */
export function share(values, part) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))];
}
