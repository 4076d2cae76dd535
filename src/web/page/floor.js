// Floors as pictures: rooms as rectangles, each point as its symbol with its circuit. The list below says the same in words.

/** The trade's symbols, as on the printed plan (docs/printing.md), in a square of 20. */
const SYMBOLS = {
  receptacle: 'M3 10a7 7 0 1 0 14 0a7 7 0 1 0-14 0M1 7.6h18M1 12.4h18',
  light: 'M1.5 10a8.5 8.5 0 1 0 17 0a8.5 8.5 0 1 0-17 0M4 4l12 12M16 4L4 16',
  appliance: 'M1.5 1.5h17v17h-17zM5.3 14.2L10 5.3l4.7 8.9z',
  alarm: 'M1.5 10a8.5 8.5 0 1 0 17 0a8.5 8.5 0 1 0-17 0M5.8 10a4.2 4.2 0 1 0 8.4 0a4.2 4.2 0 1 0-8.4 0',
  fan: 'M1.5 10a8.5 8.5 0 1 0 17 0a8.5 8.5 0 1 0-17 0M10 10c0-4 4-6 6-4s-2 4-6 4c0 4-4 6-6 4s2-4 6-4',
  other: 'M3 3h14v14H3z',
};
/** A mark over the symbol that tells the state by its shape. */
const OVER = { 1: 'M1 1l18 18', 2: 'M11 0l-5 11h4l-2 9 6-12h-4z', 3: '' };

const symbol = (kind, state) => [svg('path', { d: SYMBOLS[kind] || SYMBOLS.other, class: 'sym' }), OVER[state] ? svg('path', { d: OVER[state], class: 'over' + state }) : null, state === NOT_KNOWN ? svg('text', { x: 20, y: 6, class: 'q' }, '?') : null];
const symbolIcon = kind => svg('svg', { viewBox: '0 0 20 20', class: 'icon', 'aria-hidden': 'true' }, symbol(kind, 0));

/** Rectangles of a floor's rooms in hundredths of a meter: as measured, or a grid where nothing is. */
const boxesOf = floor => {
  const rooms = floor.rooms.map(r => S.view.rooms[r]);
  if (floor.width_m > 0 && rooms.every(r => r.measured)) return rooms.map(r => [r.left_m * 100, r.top_m * 100, r.width_m * 100, r.depth_m * 100]);
  const columns = Math.max(1, Math.ceil(Math.sqrt(rooms.length * 0.8))), out = [];
  let top = 0;
  const measured = rooms.filter(r => r.measured), others = rooms.filter(r => !r.measured);
  if (floor.width_m > 0) top = floor.depth_m * 100 + 60;
  const wide = floor.width_m > 0 ? Math.max(260, floor.width_m * 100 / columns) : 340;
  let at = 0;
  const deep = Math.max(220, ...others.map(r => 90 + 100 * Math.ceil(r.points.length / Math.max(1, Math.floor(wide / 100)))));
  for (const room of rooms) {
    if (measured.includes(room) && floor.width_m > 0) out.push([room.left_m * 100, room.top_m * 100, room.width_m * 100, room.depth_m * 100]);
    else { out.push([(at % columns) * wide, top + Math.floor(at / columns) * deep, wide, deep]); at++; }
  }
  return out;
};

const floorPicture = (which, chosen, first = -1) => {
  const floor = S.view.floors[which], boxes = boxesOf(floor), state = S.now ? S.now.state : [];
  const right = Math.max(1, ...boxes.map(b => b[0] + b[2])), bottom = Math.max(1, ...boxes.map(b => b[1] + b[3])), left = Math.min(0, ...boxes.map(b => b[0])), top = Math.min(0, ...boxes.map(b => b[1]));
  const picture = svg('svg', { class: 'plan', viewBox: `${left - 6} ${top - 6} ${right - left + 12} ${bottom - top + 12}`, role: 'img', 'aria-label': wPlanOf(floor.name), style: { '--zoom': String(S.zoom || 1), '--wide': String((right - left) / 100) } });
  floor.rooms.forEach((r, i) => {
    const room = S.view.rooms[r], [x, y, w, h] = boxes[i];
    const touched = room.points.some(p => state[p] && movedVariables().length);
    picture.append(svg('rect', { x, y, width: w, height: h, class: 'room' + (r === chosen ? ' chosen' : '') + (touched ? ' hit' : ''), on: { click: () => go(`floor/${which}/${r}`) } }));
    const size = Math.max(20, Math.min(34, w / Math.max(5, room.name.length * 0.64)));
    const most = Math.max(3, Math.floor(w / (size * 0.6)));
    picture.append(svg('text', { x: x + 8, y: y + size + 2, class: 'name', style: { 'font-size': size + 'px' } }, room.name.length > most ? room.name.slice(0, most - 1) + '\u2026' : room.name));
    const some = room.points, free = h - size - 14, inner = w - 8;
    if (!some.length) return;
    let columns = Math.max(1, Math.round(Math.sqrt(some.length * inner / Math.max(20, free) * 1.15)));
    columns = Math.min(columns, some.length);
    const rows = Math.ceil(some.length / columns), step = inner / columns, down = Math.max(16, free) / rows;
    const side = Math.max(10, Math.min(40, step * 0.48, down * 0.56));
    some.forEach((p, n) => {
      const point = S.view.points[p], px = x + 4 + step * (n % columns) + step / 2, py = y + size + 10 + down * Math.floor(n / columns) + down * 0.36;
      const mark = svg('g', { class: `pt st${state[p] || 0}`, transform: `translate(${px - side / 2} ${py - side / 2}) scale(${side / 20})`, on: { click: () => go('thing/' + point.id) } },
        svg('rect', { x: -4, y: -3, width: 28, height: 34, class: 'touch' }), symbol(point.kind, state[p] || 0));
      mark.append(svg('text', { x: 10, y: 32, class: 'lab' }, point.label), svg('title', null, `${point.name}, ${point.label}`));
      picture.append(mark);
    });
  });
  const box = el('div.planbox', { tabindex: '0', role: 'group', 'aria-label': floor.name, on: { scroll: () => { S.seen[which] = [box.scrollLeft / box.scrollWidth, box.scrollTop / box.scrollHeight]; } } }, picture);
  setTimeout(() => {
    const room = chosen >= 0 ? floor.rooms.indexOf(chosen) : first, middle = (box.scrollWidth - box.clientWidth) / 2 / box.scrollWidth;
    const at = room >= 0 ? [(boxes[room][0] - left) / (right - left), (boxes[room][1] - top) / (bottom - top)] : S.seen[which] || [middle, 0];
    box.scrollLeft = at[0] * box.scrollWidth;
    box.scrollTop = at[1] * box.scrollHeight;
  });
  return box;
};

function viewFloor([which, room]) {
  const v = S.view, at = Math.min(Number(which) || 0, v.floors.length - 1), floor = v.floors[at], chosen = room === undefined ? -1 : Number(room);
  S.now = changes(S.at);
  if (!floor) return [el('h1', wTitles.floor), el('p', wEmptyHouse)];
  const zoom = by => { S.zoom = Math.max(0.3, Math.min(4, (S.zoom || 1) * by)); draw(); };
  if (chosen >= 0 && viewFloor.last !== location.hash) { S.open.add('fr' + chosen); setTimeout(() => { const to = byId('d-fr' + chosen); if (to) to.scrollIntoView({ block: 'nearest' }); }); }
  viewFloor.last = location.hash;
  return [el('h1', floor.name),
    picks(wFloorOf, v.floors.map(f => f.name), 'floor', at),
    movedBar(),
    floorPicture(at, chosen),
    el('div.zoom', button('+ ' + wLarger, () => zoom(1.5), { id: 'zin' }), button('\u2212 ' + wSmaller, () => zoom(1 / 1.5), { id: 'zout' })),
    el('p.hint', floor.scale, ' ', wLegend),
    section(wList, floor.rooms.map(r => folded(`${v.rooms[r].name} (${v.rooms[r].points.length})`, 'fr' + r,
      () => list(v.rooms[r].points, p => el('div.withicon', symbolIcon(v.points[p].kind), pointLink(p, true)), { class: 'rows' }))))];
}
