// Floors as pictures: rooms as rectangles, each point as its symbol with its circuit. The list below says the same in words.

/** The trade's symbols, as on the printed plan (docs/printing.md), in a square of 20. */
const disc = r => `M${10 - r} 10a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0-${2 * r} 0`;
const SYMBOLS = {
  receptacle: disc(7) + 'M1 7.6h18M1 12.4h18',
  light: disc(8.5) + 'M4 4l12 12M16 4L4 16',
  appliance: 'M1.5 1.5h17v17h-17zM5.3 14.2L10 5.3l4.7 8.9z',
  alarm: disc(8.5) + disc(4.2),
  fan: disc(8.5) + 'M10 10c0-4 4-6 6-4s-2 4-6 4c0 4-4 6-6 4s2-4 6-4',
  other: 'M3 3h14v14H3z',
};
/** A mark over the symbol that tells the state by its shape. */
const OVER = { 1: 'M1 1l18 18', 2: 'M11 0l-5 11h4l-2 9 6-12h-4z' };

const symbol = (kind, state) => [svg('path', { d: SYMBOLS[kind] || SYMBOLS.other, class: 'sym' }), OVER[state] && svg('path', { d: OVER[state], class: 'over' + state }), state === NOT_KNOWN && svg('text', { x: 20, y: 6, class: 'q' }, '?')];
const symbolIcon = kind => svg('svg', { viewBox: '0 0 20 20', class: 'icon', 'aria-hidden': 'true' }, symbol(kind));

/** Rectangles of a floor's rooms in hundredths of a meter: as measured; those that are not, in a grid below. */
const boxesOf = floor => {
  const rooms = floor.rooms.map(roomAt), drawn = floor.width_m > 0, isDrawn = room => drawn && room.measured, others = rooms.filter(room => !isDrawn(room));
  const columns = max(1, Math.ceil(Math.sqrt(rooms.length * 0.8))), wide = drawn ? max(260, floor.width_m * 100 / columns) : 340, top = drawn ? floor.depth_m * 100 + 60 : 0;
  const deep = max(220, ...others.map(r => 90 + 100 * Math.ceil(r.points.length / max(1, Math.floor(wide / 100)))));
  return rooms.map(room => {
    if (isDrawn(room)) return [room.left_m, room.top_m, room.width_m, room.depth_m].map(m => m * 100);
    const at = others.indexOf(room);
    return [(at % columns) * wide, top + Math.floor(at / columns) * deep, wide, deep];
  });
};

const pointSymbol = (p, state, x, y, side) => {
  const { id, kind, label, name } = pointAt(p);
  return svg('g', { class: 'pt st' + state, transform: `translate(${x - side / 2} ${y - side / 2}) scale(${side / 20})`, click: () => go('thing/' + id) },
    svg('rect', { x: -4, y: -3, width: 28, height: 34, class: 'touch' }), symbol(kind, state), svg('text', { x: 10, y: 32, class: 'lab' }, label), svg('title', {}, `${name}, ${label}`));
};
const roomPicture = (which, r, [x, y, width, height], marks, state) => {
  const { name, points } = roomAt(r), size = max(20, min(34, width / max(5, name.length * 0.64))), most = max(3, Math.floor(width / (size * 0.6))), inner = width - 8, free = max(20, height - size - 14);
  const columns = min(points.length, max(1, Math.round(Math.sqrt(points.length * inner / free * 1.15)))), step = inner / columns, down = free / Math.ceil(points.length / columns), side = max(10, min(40, step * 0.48, down * 0.56));
  return [svg('rect', { x, y, width, height, class: 'room' + marks, click: () => go(`floor/${which}/${r}`) }),
    svg('text', { x: x + 8, y: y + size + 2, class: 'name', style: { 'font-size': size + 'px' } }, name.length > most ? name.slice(0, most - 1) + '\u2026' : name),
    points.map((p, n) => pointSymbol(p, state[p] || 0, x + 4 + step * (n % columns + 0.5), y + size + 10 + down * (Math.floor(n / columns) + 0.36), side))];
};

const floorPicture = (which, chosen, first = chosen) => {
  const floor = $view.floors[which], boxes = boxesOf(floor), state = $now ? $now.state : [], moved = movedVariables().length;
  const [left, top, right, bottom] = [min(0, ...boxes.map(b => b[0])), min(0, ...boxes.map(b => b[1])), max(1, ...boxes.map(b => b[0] + b[2])), max(1, ...boxes.map(b => b[1] + b[3]))];
  const picture = svg('svg', { class: 'plan', viewBox: `${left - 6} ${top - 6} ${right - left + 12} ${bottom - top + 12}`, role: 'img', [LABEL]: wPlanOf(floor.name), style: { '--z': $zoom, '--w': (right - left) / 100 } },
    floor.rooms.map((r, i) => roomPicture(which, r, boxes[i], (r === chosen ? ' chosen' : '') + (moved && roomAt(r).points.some(p => state[p]) ? ' hit' : ''), state)));
  const box = el('.planbox', { tabindex: '0', role: 'group', [LABEL]: floor.name, scroll: () => { $seen[which] = [box.scrollLeft / box.scrollWidth, box.scrollTop / box.scrollHeight]; } }, picture);
  setTimeout(() => {
    const seen = boxes[floor.rooms.indexOf(first)], [x, y] = seen ? [(seen[0] - left) / (right - left), (seen[1] - top) / (bottom - top)] : $seen[which] || [(1 - box.clientWidth / box.scrollWidth) / 2, 0];
    box.scrollLeft = x * box.scrollWidth;
    box.scrollTop = y * box.scrollHeight;
  });
  return box;
};

function viewFloor([which, room]) {
  const { floors } = $view, at = min(+which || 0, floors.length - 1), floor = floors[at], chosen = room === undefined ? -1 : +room;
  $now = changes($at);
  if (!floor) return bare(wTitles.floor, paragraph(wEmptyHouse));
  const zoom = by => () => { $zoom = max(0.3, min(4, $zoom * by)); draw(); };
  if (chosen >= 0 && location.hash !== lastRoute) { $open.add('fr' + chosen); setTimeout(() => { const to = byId('d-fr' + chosen); if (to) to.scrollIntoView({ block: 'nearest' }); }); }
  return [heading(floor.name), picks(wFloorOf, floors.map(f => f.name), 'floor', at), movedBar(), floorPicture(at, chosen),
    el('.zoom', button('+ ' + wLarger, zoom(1.5), '#zin'), button('\u2212 ' + wSmaller, zoom(1 / 1.5), '#zout')),
    hint([floor.scale, ' ', wLegend]),
    section(wList, floor.rooms.map(r => folded(`${roomAt(r).name} (${roomAt(r).points.length})`, 'fr' + r,
      () => list(roomAt(r).points, p => el('.withicon', symbolIcon(pointAt(p).kind), pointLink(p, true)), '.rows'))))];
}
