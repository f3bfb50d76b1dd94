// A station to draw by while there is no server: invented from end to end, used by `npm run dev` only.
// STATIONWRIGHT_SHEET names the output of `stationwright assess DIR --json` to be shown instead, with the invented map.
import { readFileSync } from 'node:fs';
import { fieldAt, H, height, MAST, rings, W } from './ground.mjs';

const s = (text, unit = '', number = undefined) => ({ text, unit, number: number ?? (Number.isFinite(Number(text.replace('−', '-').replace(/,/g, ''))) ? Number(text.replace('−', '-').replace(/,/g, '')) : undefined) });
const how = (formula, inputs = [], clause = 'Common practice, no source') => ({ formula, clause, validity: 'Any station of this kind.', witness: '', inputs });
const fig = (id, stage, label, value, extra = {}) => ({ id, stage, label, value, missing: null, spread: null, in_hand: null, short: false, against: null, mark: 'C', mark_words: 'computed', how: how('value = value'), ...extra });

let power = 150;
let bays = 4;
let height_m = 24;
let history = [];
let undone = [];
let fileText = `# Invented, for work on the page.\nformat = 1\nname = "Radio Halvane"\n\n[brief]\nbudget = "45000 EUR"\n\n[[antennas]]\ntag = "ANT1"\nbays = 4\nheight = "24 m above ground"\n`;
let calls = 2;

function view(draft = false) {
  const erp = Math.round(power * bays * 0.823);
  const people = Math.round((7600 + erp * 1.08) / 10) * 10;
  const group = (n) => n.toLocaleString('en');
  const figures = [
    fig('transmission.E1.tpo', 'transmitter', 'Transmitter power output', s(String(power), 'W'), { in_hand: s('+3.0', 'dB'), against: 'rating 300 W' }),
    fig('transmission.E1.erp', 'antenna', 'ERP, vertical, total', s(String(erp), 'W'), { in_hand: s('+0.1', 'dB'), against: 'licence 500 W', spread: '± 0.5 dB', how: how('P_ERP = P_TX − ΣL + G_d', [
      { kind: 'figure', target: 'transmission.E1.tpo', label: 'transmitter power output', value: s(String(power), 'W'), mark: 'C' },
      { kind: 'figure', target: 'transmission.E1.feeder', label: 'feeder and connectors', value: s('−0.97', 'dB'), mark: 'C' },
      { kind: 'stated', target: 'antennas.ANT1.bays', label: 'bays', value: s(String(bays)), mark: 'V' },
      { kind: 'table', target: 'dipole', label: 'over a half-wave dipole', value: s('2.15', 'dB'), source: 'Radio Regulations, No. 1.162', mark: 'V' },
    ], 'ERP over a half-wave dipole: Radio Regulations, No. 1.162') }),
    fig('transmission.E1.feeder', 'feeder', 'Feeder, filter and connectors', s('−0.97', 'dB'), { in_hand: s('+15.2', 'dB') }),
    fig('transmission.E1.vswr', 'feeder', 'VSWR at the transmitter', s('1.17', '')),
    fig('antenna.ANT1.gain', 'antenna', 'Gain of the stack', s('6.40', 'dBd')),
    fig('coverage.E1.people', 'listener', 'Heard in stereo', s(group(people), 'people'), { in_hand: s('+242', 'people'), spread: '± 600' }),
    fig('coverage.W3.field', 'field', 'Median field, Skerrow', s('50.3', 'dBµV/m'), { in_hand: s('−3.7', 'dB'), short: true, spread: '± 6.3 dB' }),
    fig('money.capital', 'money', 'to build, freight and duty in', s('41,860', 'EUR')),
    fig('money.yearly', 'money', 'a year, energy 1,410', s('3,480', 'EUR')),
    fig('money.over_years', 'money', 'over 15 years', s('94,060', 'EUR')),
    fig('sites.reserve', 'sites', 'Reserve without mains', s('2 h 20', 'min'), { in_hand: s('+20', 'min') }),
    fig('link.L1.rain', 'link', 'Rain fade, 99.99 %', { text: 'not known', unit: '', number: null }, { missing: 'needs a rain zone' }),
    fig('link.L1.fade', 'link', 'Fade margin', s('6.2', 'dB'), { in_hand: s('+6.2', 'dB') }),
    fig('studio.callers', 'console', 'Callers at once', s('1'), { in_hand: s('−1'), short: true }),
  ];
  const stage = (st, name, level, margin, worst) => ({ stage: st, name, level, margin, worst, level_figure: null, margin_figure: null });
  const finding = (code, severity, st, says, remedies, clause, figs = []) => ({ code, key: `${code} ${st}`, severity, severity_word: severity, stage: st, tag: 'X1', says, remedies, clause, mark: 'P', figures: figs });
  return {
    token: `${power}-${bays}-${height_m}-${calls}-${draft}`, draft,
    subtitle: '97.4 MHz, island of Halvane (invented)',
    sheet: {
      name: 'Radio Halvane', invented: true, client: null, revision: 12, date: '14 March 2031', digest: 'abc', currency: 'EUR', language: 'en',
      sentence: [{ text: 'Radio Halvane is heard by ' }, { text: group(people), figure: 'coverage.E1.people' }, { text: ' of the island’s 9,860 people and costs ' }, { text: '41,860 EUR', figure: 'money.capital' }, { text: '. It keeps seven of the nine points of its brief.' }],
      lead: 'Two things stand before a signature: a second caller would hear their own voice, and Skerrow, behind the ridge, gets mono only.',
      stages: [
        stage('microphones', 'Microphones', s('−48', 'dBu'), s('+22.0', 'dB')), stage('console', 'Console', s('+4', 'dBu'), s('+18.0', 'dB'), calls > 1 ? 'error' : undefined), stage('processing', 'Processing', s('−0.4', 'dBr'), s('+0.4', 'dB')),
        stage('link', 'Link', s('−58.6', 'dBm'), s('+6.2', 'dB'), 'warning'), stage('transmitter', 'Transmitter', s(String(power), 'W'), s('+3.0', 'dB')), stage('feeder', 'Feeder', s('−0.97', 'dB'), s('+15.2', 'dB')),
        stage('antenna', 'Antenna', s(String(erp), 'W ERP'), s('+0.1', 'dB'), 'note'), stage('field', 'Field', s('50.3', 'dBµV/m'), s('−3.7', 'dB'), 'warning'), stage('listener', 'Listener', s(group(people), 'people'), s('+242')),
        stage('sites', 'Sites', s('1.24', 'kW'), s('2 h 20 min', 'reserve')), stage('money', 'Money', s('41,860', 'EUR'), s('3,480', 'EUR a year')),
      ],
      points: [
        ['People in stereo, 54 dBµV/m', s('80 %: 7,888', ''), s(group(people), ''), s('+242', 'people'), 'coverage.E1.people', true], ['Port Halvane indoors', s('66', 'dBµV/m'), s('71.5', 'dBµV/m'), s('+5.5', 'dB'), 'x', true],
        ['Nethermoor in stereo', s('54', 'dBµV/m'), s('60.9', 'dBµV/m'), s('+6.9', 'dB'), 'x', true], ['Skerrow in stereo', s('54', 'dBµV/m'), s('50.3', 'dBµV/m'), s('−3.7', 'dB'), 'coverage.W3.field', false],
        ['ERP, vertical, total', s('up to 500', 'W'), s(String(erp), 'W'), s('0.1', 'dB'), 'transmission.E1.erp', true], ['Round the desk', s('host and 2 guests'), s('3 places'), s('none spare'), 'x', true],
        ['Callers at once', s('2'), s('1'), s('1 short'), 'studio.callers', calls < 2], ['On air through a power cut', s('2 h'), s('2 h 20 min'), s('+20', 'min'), 'sites.reserve', true], ['Price, with freight', s('45,000', 'EUR'), s('41,860', 'EUR'), s('3,140', 'EUR left'), 'money.capital', true],
      ].map(([label, asked, answered, in_hand, figure, kept]) => ({ label, asked, answered, in_hand, figure, kept })),
      figures,
      findings: [
        ...(calls > 1 ? [finding('ST 07', 'error', 'console', 'Caller 2 would hear their own voice: the brief asks for two callers, the console has one clean feed.', [{ does: 'Use auxiliary 2 as clean feed 2', edits: [{ path: 'rooms.STUDIO.aux', to: 'clean feed' }], effect: 'no cost' }], 'Common practice, no source', ['studio.callers'])] : []),
        finding('FI 03', 'warning', 'field', 'Skerrow gets 50.3 dBµV/m, 3.7 dB short of stereo. Long Back, 3.5 km out, takes 29.6 dB.', [{ does: 'Price a fill-in at Long Back', edits: [], effect: 'about 6,900 EUR' }], 'Rec. ITU-R BS.412-9, Table 1', ['coverage.W3.field']),
        finding('LK 02', 'warning', 'link', 'The ray clears the boathouse by 3.1 m; at k = 2/3 it needs 5.0 m.', [{ does: 'Raise the studio dish by 2 m', edits: [{ path: 'hops.L1.from_height', to: '13 m above ground' }], effect: '140 EUR' }], 'Rec. ITU-R P.530, § 2.2.2', ['link.L1.fade']),
        finding('SA 02', 'caution', 'antenna', 'Climb only with the transmitter off and locked off, by trained people.', [], 'Local rules go first'),
        finding('LI 01', 'note', 'antenna', '494 W of 500 W. A transmitter set 2 % high would pass the licence.', [{ does: 'Set 148 W', edits: [{ path: 'items.TX1.set', to: '148 W' }], effect: '9 people fewer' }], 'Licence, annex 2', ['transmission.E1.erp']),
      ],
      bill: [['transmitter', 'Transmitter', 'Transmitter, 300 W, with remote control', '1', '3,900', '3,900'], ['feeder', 'Feeder', 'Coaxial line, 7/8 inch foam', '45', '13.80', '621'], ['antenna', 'Antenna', 'Dipole in stainless steel', '4', '640', '2,560']].map(([st, stage_name, name, q, each, line], i) => ({ id: `b${i}`, stage: st, stage_name, shelf: 'x', name, quantity: s(q), each: s(each, 'EUR'), line: s(line, 'EUR'), mass: null, why: i ? null : 'asked by the licence', mark: 'I' })),
      excluded: ['The building at the mast.', 'Licence fees.'],
      assumptions: [{ path: 'brief.energy_price', label: 'Energy price', value: '0.25 EUR/kWh', between: '0.18 to 0.40', why: 'not stated in the brief', field: null, people: null, money: s('+1,200', 'EUR'), mark: 'P' }],
      questions: ['May the mast be 30 m high?', 'Who climbs it?'],
      curves: [{ id: 'antenna.ANT1.below', along: 'below the horizon', along_unit: '°', of: 'Below the horizon', unit: 'dB', points: Array.from({ length: 81 }, (_, i) => { const a = -5 + i * 0.45; const v = Math.sin((Math.PI / 180) * a) * 0.9 * bays; const g = Math.abs(v) < 1e-9 ? 1 : Math.abs(Math.sin(Math.PI * v) / (bays * Math.sin((Math.PI * v) / bays) || 1)); return [a, Math.max(-30, 20 * Math.log10(g || 1e-3))]; }) }],
    },
    file: { name: 'station.toml', digest: String(fileText.length), condition: 'saved', why: null },
    last: history[0] ?? null, can_undo: history.length > 0, can_redo: undone.length > 0,
    openings: [
      { sheet: 'coverage', sentence: [{ text: group(people), figure: 'coverage.E1.people' }, { text: ' people hear it in stereo, 242 more than asked. Skerrow, behind Long Back, is 3.7 dB short.' }], lead: null },
      { sheet: 'antenna', sentence: [{ text: `${power} W in, ` }, { text: `${erp} W`, figure: 'transmission.E1.erp' }, { text: ' out, within the licence in every direction by 0.1 dB or more.' }], lead: null },
    ],
    handles: [
      { id: 'power', sheet: 'antenna', label: 'power', path: 'items.TX1.set', typed: `${power} W`, also: 'Also 21.8 dBW. Rating 300 W.', at: power / 300, stops: Array.from({ length: 30 }, (_, i) => ({ at: (i + 1) / 30, says: `${(i + 1) * 10} W`, named: [0, 9, 19, 29].includes(i), edits: [{ path: 'items.TX1.set', to: `${(i + 1) * 10} W` }] })) },
      { id: 'height', sheet: 'antenna', label: 'height', path: 'antennas.ANT1.height', typed: `${height_m} m above ground`, also: 'Also 79 ft. Licence: up to 30 m above ground.', at: (height_m - 12) / 24, stops: Array.from({ length: 25 }, (_, i) => ({ at: i / 24, says: `${12 + i} m`, named: i % 6 === 0, edits: [{ path: 'antennas.ANT1.height', to: `${12 + i} m` }] })) },
      { id: 'bays', sheet: 'antenna', label: 'bays', path: 'antennas.ANT1.bays', typed: String(bays), also: null, at: 0.5, stops: [1, 2, 4, 6, 8].map((n, i) => ({ at: i / 4, says: String(n), named: true, edits: [{ path: 'antennas.ANT1.bays', to: n }] })) },
    ].map((h) => (h.id === 'bays' ? { ...h, at: [1, 2, 4, 6, 8].indexOf(bays) / 4 } : h)),
    mast: { site: 'Cold Ridge', top_m: height_m, top_says: `${height_m.toFixed(1)} m`, foot_m: 0, width_m: 0.6, lattice: true, bays_m: Array.from({ length: bays }, (_, i) => height_m - 1.5 - i * 2.77), bays_say: Array.from({ length: bays }, (_, i) => `${(height_m - 1.5 - i * 2.77).toFixed(2)} m`), stand_off_says: '0.90 m', centre_m: height_m - 1.5 - ((bays - 1) * 2.77) / 2, centre_says: `${(height_m - 1.5 - ((bays - 1) * 2.77) / 2).toFixed(1)} m`, spacing_says: '2.77 m', element_m: 1.45, upright: true, stand_off_m: 0.9, elements_say: ['dipoles, stainless steel, vertical', 'stand-off 0.9 m, leg at 140°'], splitter_says: [`splitter, ${bays} ways`, '1 kW; tails of one length'], feeder_says: '45 m of 7/8 inch', transmitter_says: ['FM transmitter, 300 W', `${power} W`], public_distance_m: 9.1, public_says: ['9.1 m', 'Rec. ITU-T K.70'] },
    horizon: { unit: 'W ERP', erp: Array.from({ length: 120 }, (_, i) => [i * 3, erp * (0.72 + 0.28 * Math.cos(((i * 3 - 140) * Math.PI) / 180))]), allowed: Array.from({ length: 36 }, (_, i) => [i * 10, i >= 30 && i < 34 ? 250 : 500]), rings: [{ value: 50, share: 0.5, says: '50' }, { value: 126, share: 0.7, says: '126' }, { value: 500, share: 1, says: '500 W' }], places: [{ name: 'Skerrow', az_deg: 111, depression_deg: 2.1, gain_dbd: 6.1, seen: '2.1°, 6.1 dBd' }, { name: 'Port Halvane', az_deg: 182, depression_deg: 2.8, gain_dbd: 6, seen: '2.8°, 6.0 dBd' }, { name: 'Nethermoor', az_deg: 245, depression_deg: 1.4, gain_dbd: 4.4, seen: '1.4°, 4.4 dBd' }], tightest: { az_deg: 320, says: ['0.3 dB in hand', 'at 320°'], short: false } },
    ladder: [['Transmitter power output', null, '21.76', String(power)], ['Band-pass filter', '−0.30', '21.46', '140'], ['Six connectors, two jumpers', '−0.12', '21.34', '136'], ['Feeder, 45 m of 7/8 inch, 40 °C', '−0.52', '20.82', '121'], ['Mismatch, return loss 22 dB', '−0.03', '20.79', '120'], ['Splitter and tails', '−0.25', '20.54', '113'], [`${bays} bays at 0.9 λ, over a dipole`, '+6.40', '26.94', String(erp)], ['ERP, vertical, total', null, '26.94', String(erp)]].map(([label, c, l, p], i) => ({ label, change: c ? s(c, 'dB') : null, level: s(l, 'dBW'), power: s(p, 'W'), figure: i === 7 ? 'transmission.E1.erp' : i === 0 ? 'transmission.E1.tpo' : null })),
    more: [{ says: 'Fill-in at Long Back', gives: '+1,410 people', price: s('+6,900', 'EUR'), edits: [] }, { says: 'Six bays for four', gives: '+60 people', price: s('+2,150', 'EUR'), edits: [{ path: 'antennas.ANT1.bays', to: 6 }] }],
  };
}

const heights = Float32Array.from({ length: W * H }, (_, i) => height(i % W, Math.floor(i / W)));
const base = Float32Array.from({ length: W * H }, (_, i) => fieldAt(i % W, Math.floor(i / W)));
function shadePlane() {
  return Uint8Array.from({ length: W * H }, (_, i) => { const x = i % W; const y = Math.floor(i / W); return Math.max(0, Math.min(12, Math.round(6 + ((height(x + 1, y) - height(x - 1, y)) + (height(x, y + 1) - height(x, y - 1))) * 0.25))); });
}
const shades = shadePlane();
const offset = () => 10 * Math.log10((power * bays) / 600);
const EDGES = [48, 54, 60, 66, 70, 74];
function map(url) {
  const o = offset();
  const f = base.map((v) => v + o);
  return {
    legend: {
      token: view().token, coarse: false, width: W, height: H, west_deg: -20, north_deg: 52, step_lon_deg: 0.001, step_lat_deg: 0.001, aspect: 1, cell_m: 60, unit: 'dBµV/m',
      classes: [['below 48', 'bare land', false, 0, 220], ['48', 'open country, mono', true, 0, 1510], ['54', 'open country, stereo', false, 0, 340], ['60', 'town, mono', true, 1, 1190], ['66', 'town, stereo', false, 1, 2030], ['70', 'large city, mono', true, 2, 3560], ['74', 'large city, stereo', false, 2, 1010]].map(([edge, wanted_for, mono, weight, n], i) => ({ from: i ? EDGES[i - 1] : null, edge, wanted_for, mono, weight, people: s(n.toLocaleString('en')) })),
      marks: [{ kind: 'mast', name: 'Cold Ridge', note: '312 m, mast 24 m', ...MAST }, { kind: 'place', name: 'Skerrow', note: '50.3 dBµV/m', x: 240, y: 100 }, { kind: 'place', name: 'Port Halvane', note: '71.5 dBµV/m', x: 135, y: 128 }, { kind: 'place', name: 'Nethermoor', note: '60.9 dBµV/m', x: 52, y: 120 }],
      scale: [{ cells: 0, says: '0' }, { cells: 41.7, says: '2.5' }, { cells: 83.3, says: '5 km' }],
      places: [['Port Halvane', '6,240', '71.5', '+5.5', false, 135, 128], ['Nethermoor', '1,120', '60.9', '+6.9', false, 52, 120], ['Skerrow', '1,480', '50.3', '−3.7', true, 240, 100]].map(([name, people, median, hand, short, x, y]) => ({ name, people: s(people), median: s(median, 'dBµV/m'), in_hand: s(hand, 'dB'), short, figure: short ? 'coverage.W3.field' : null, x, y })),
      strip: [{ label: 'Method', says: 'none: drawn for work on the page' }, { label: 'Terrain', says: 'Halvane, invented' }, { label: 'Study step', says: '90 m' }, { label: 'Sheet', says: 'Coverage, revision 12' }],
      says: '1,510 hear it in mono, 220 not at all. Median field, 50 % of time and places, ± 6 dB.',
    },
    coast: rings(heights, 0), contours: EDGES.map((edge, i) => ({ class: i + 1, rings: rings(f, edge) })), raster: `api/field/raster?${url.searchParams}&token=${view().token}`,
  };
}
function raster() {
  const o = offset();
  const out = Buffer.alloc(W * H * 4);
  for (let i = 0; i < W * H; i++) { out.writeInt16LE(Math.round((base[i] + o) * 100), i * 2); out[W * H * 2 + i] = shades[i]; out[W * H * 3 + i] = heights[i] > 0 ? 1 : 0; }
  return out;
}
function probe(q) {
  const known = { Skerrow: [240, 100], 'Port Halvane': [135, 128], Nethermoor: [52, 120] };
  const at = q.get('at');
  if (at && !known[at]) return null;
  const [x, y] = at ? known[at] : [Number(q.get('x')), Number(q.get('y'))];
  const name = Object.keys(known).find((k) => Math.hypot(known[k][0] - x, known[k][1] - y) < 4) ?? '52.034 −19.871';
  const d = Math.hypot(x - MAST.x, y - MAST.y) * 0.06;
  const ground = Array.from({ length: 120 }, (_, i) => [(d * i) / 119, height(MAST.x + ((x - MAST.x) * i) / 119, MAST.y + ((y - MAST.y) * i) / 119)]);
  const a = ground[0][1] + 24; const b = ground[119][1] + 10;
  const ray = [[0, a], [d, b]];
  let peak = null; let most = -Infinity;
  for (const [t, h] of ground.slice(8, 110)) { const over = h - (a + ((b - a) * t) / d); if (over > most) { most = over; peak = [t, h]; } }
  const zone = (sign) => ground.map(([t]) => [t, a + ((b - a) * t) / d + sign * 0.6 * 17.3 * Math.sqrt((Math.max(0, t) * Math.max(0, d - t)) / (0.0974 * d || 1)) ]);
  const e = fieldAt(x, y) + offset();
  const loss = most > 0 ? Math.min(32, most * 0.16) + 6 : 0;
  const f = (v) => v.toFixed(1).replace('-', '−');
  return { title: `Cold Ridge to ${name}`, note: `bearing 111°, ${d.toFixed(1)} km, earth × 4/3`, name, x, y, field: s(f(e), 'dBµV/m'), in_hand: s(e >= 54 ? `+${f(e - 54)}` : f(e - 54), 'dB'), short: e < 54, unit: 'dBµV/m',
    wanted: { value: 54, says: '54 dBµV/m' },
    rungs: [{ label: `494 W over ${d.toFixed(1)} km, nothing between`, change: s(f(e + loss + 6)), from: 0, to: e + loss + 6, level: true }, { label: 'Long Back ridge', change: s(f(-loss)), from: e + loss + 6, to: e + 6, level: false }, { label: 'houses, trees, ground', change: s('−6.0'), from: e + 6, to: e, level: false }, { label: name, change: s(f(e)), from: 0, to: e, level: true }],
    profile: { along_unit: 'km', height_unit: 'm above sea', ground, cover: [], ray, string: most > 0 ? [ray[0], peak, ray[1]] : ray, zone_above: zone(1), zone_below: zone(-1), obstacle: most > 0 ? { along: peak[0], height: peak[1], x: MAST.x + ((x - MAST.x) * peak[0]) / d, y: MAST.y + ((y - MAST.y) * peak[0]) / d, title: `${peak[0].toFixed(1)} km`, note: `${most.toFixed(0)} m, ${f(loss)} dB` } : null, far_says: '10 m' } };
}

function take(edits) {
  for (const e of edits) {
    if (e.path === 'items.TX1.set') power = parseFloat(e.to);
    if (e.path === 'antennas.ANT1.bays') bays = Number(e.to);
    if (e.path === 'antennas.ANT1.height') height_m = parseFloat(e.to);
    if (e.path === 'rooms.STUDIO.aux') calls = 1;
  }
}
const keep = () => [power, bays, height_m, calls];
const back = (k) => ([power, bays, height_m, calls] = k);

const sheet = process.env.STATIONWRIGHT_SHEET ? JSON.parse(readFileSync(process.env.STATIONWRIGHT_SHEET, 'utf8')) : null;
const shown = (v) => (sheet ? { ...v, sheet, openings: [] } : v);

function hops() {
  const d = 11.2;
  const n = 120;
  const at = (i) => (d * i) / (n - 1);
  const bulge = (x, k) => (x * (d - x)) / (12.74 * k);
  const bare = (x) => 14 + 9 * Math.sin(x * 1.3) + (x > 6 && x < 7.6 ? 12 * Math.sin(((x - 6) / 1.6) * Math.PI) : 0);
  const [a, b] = [bare(0) + 19, bare(d) + 58];
  const ray = (x) => a + ((b - a) * x) / d;
  const radius = (x) => 0.6 * 17.3 * Math.sqrt((x * Math.max(0, d - x)) / (5.8 * d));
  const points = Array.from({ length: n }, (_, i) => at(i));
  const worst = 6.8;
  return [{
    tag: 'L1', title: 'Port Halvane, quayside → Cold Ridge', note: '11.2 km by radio at 5.8 GHz', reserve: false, why_not: null,
    radio: {
      profile: { along_unit: 'km', height_unit: 'm', ground: points.map((x) => [x, bare(x) + bulge(x, 4 / 3)]), cover: [], ray: [[0, a], [d, b]], string: [[0, a], [d, b]], zone_above: points.map((x) => [x, ray(x) + radius(x)]), zone_below: points.map((x) => [x, ray(x) - radius(x)]), obstacle: null, far_says: '58 m' },
      low_ground: points.map((x) => [x, bare(x) + bulge(x, 0.8)]), low_says: 'ground at k = 0.80', near_says: '19 m',
      nearest: { along: worst, ray: ray(worst), ground: bare(worst) + bulge(worst, 4 / 3), says: '22.4 m clear', note: '7.1 m wanted, at 6.8 km', short: false },
      rungs: [['Radiated, EIRP', 36, 0, 36, true], ['Free space', -128.7, 36, -92.7], ['Oxygen and water vapour', -0.1, -92.7, -92.8], ['Dish at the far end', 29, -92.8, -63.8], ['Line at the far end', -0.3, -63.8, -64.1], ['Received', -64.1, 0, -64.1, true]].map(([label, v, from, to, level]) => ({ label, change: s(`${v < 0 ? '−' : level ? '' : '+'}${Math.abs(v).toFixed(1)}`, level ? 'dBm' : 'dB'), from, to, level: !!level })),
      unit: 'dBm', threshold: { value: -82, says: '−82.0 dBm' }, in_hand: s('+17.9', 'dB'), short: false,
      fades: [{ label: 'Several paths through the air', time: s('61', 'min/year'), share: 0.023 }, { label: 'Rain', time: s('3', 'min/year'), share: 0.001 }], allowed: { label: 'May be lost, by the brief', time: s('2,630', 'min/year'), share: 1 },
    },
  }];
}
function studio() {
  const source = (name, note, symbol, wire, input, gain, routed = [0, 1, 2, 3], left_out = [], short = false) => ({ name, note, symbol, wire, input, gain, routed, left_out, short });
  const output = (name, note, symbol, bus, short = false) => ({ name, note, symbol, wire: bus === null ? 'logic' : 'balanced', bus, short });
  const columns = ['Host', 'Guest 1', 'Guest 2', 'Playout', 'Caller 1', 'Caller 2', 'Caller 3', "Guest's own device"];
  const row = (name, cells, short = false) => ({ name, cells, short });
  const yes = columns.map(() => 'yes');
  const but = (i, what) => columns.map((_, j) => (j === i ? what : 'yes'));
  return {
    console: 'Console, ten inputs', buses: [['P', 'programme'], ['M', 'monitor'], ['C1', 'clean feed 1'], ['C2', 'clean feed 2']].map(([letter, says]) => ({ letter, says })),
    sources: [source('Host', '−48.0 dBu', 'microphone', 'balanced', '1', '+48.0'), source('Guest 1', '−48.0 dBu', 'microphone', 'balanced', '2', '+48.0'), source('Guest 2', '−48.0 dBu', 'microphone', 'balanced', '3', '+48.0'), source('Playout', '−18.0 dBFS', 'player', 'digital', '5', '0.0'), source('Caller 1', null, 'telephone', 'balanced', '6', null, [0, 1, 3], [2]), source('Caller 2', null, 'telephone', 'balanced', '7', null, [0, 1, 2], [3]), source('Caller 3', 'no clean feed left', 'telephone', 'balanced', '8', null, [0, 1, 2, 3], [], true), source("Guest's own device", 'no stereo input left', 'socket', 'balanced', null, null, [], [], true)],
    outputs: [output('Processing, then link', '+4.0 dBu', 'processing', 0), output('Headphones', '4 outputs for 3 people', 'headphones', 1), output('Loudspeakers', 'silent while a microphone is open', 'loudspeaker', 1), output('Caller 1 hears', 'everything but themselves', 'telephone', 2), output('Caller 2 hears', 'everything but themselves', 'telephone', 3), output('Caller 3 hears', 'the programme, their own voice in it', 'telephone', 0, true), output('On-air light', 'lit while a microphone is open', 'lamp', null)],
    hears: { columns, rows: [row('At the desk', yes), row('Loudspeakers', columns.map((_, i) => (i < 3 ? 'silent' : 'yes'))), row('Caller 1', but(4, 'not-own')), row('Caller 2', but(5, 'not-own')), row('Caller 3', but(6, 'own'), true), row('On air', yes)] },
    racks: [{ title: 'Rack of 24 U, Port Halvane', units: 24, items: [['Hybrid, one line', 1], ['Hybrid, one line', 1], ['Hybrid, one line', 1], ['Headphone amplifier, four outputs', 1], ['Playout workstation', 4], ['Playout workstation', 4]].map(([name, units]) => ({ name, units, over: false })) }],
  };
}

export function answer(method, url, body) {
  const json = (value, status = 200) => ({ status, type: 'application/json', body: JSON.stringify(value) });
  const path = url.pathname.replace(/^.*\/api\//, '');
  if (path === 'sheet') return json(shown(view()));
  if (path === 'edits') {
    const to = String(body.edits[0]?.to ?? '');
    if (/^\d+$/.test(to) && body.edits[0].path !== 'antennas.ANT1.bays') return json({ code: 'edit-refused', says: 'A power needs its unit: 500 W, 0.5 kW or 27 dBW.', path: body.edits[0].path }, 422);
    const was = keep();
    take(body.edits);
    undone = [];
    history.unshift({ says: `${body.edits[0].path} ${to}`, effect: '+0.2 dB, 40 people more', at: '14:02', undone: false, was });
    return json(shown(view()));
  }
  if (path === 'draft') { const was = keep(); take(body.edits); const v = view(true); back(was); return json(v); }
  if (path === 'undo') { const one = history.shift(); undone.push({ ...one, now: keep() }); back(one.was); return json(shown(view())); }
  if (path === 'redo') { const one = undone.pop(); history.unshift(one); back(one.now); return json(shown(view())); }
  if (path === 'history') return json(history);
  if (path === 'file' && method === 'GET') return json({ name: 'station.toml', text: fileText, digest: String(fileText.length) });
  if (path === 'file') {
    const lines = body.text.split('\n');
    const bad = lines.findIndex((l) => l.includes('hieght'));
    if (bad >= 0) return json({ kind: 'faults', faults: [{ line: bad + 1, column: 1, length: 6, says: '`hieght` is not known here', help: 'Did you mean `height`?' }] });
    fileText = body.text;
    return json({ kind: 'taken', view: view(), digest: String(fileText.length) });
  }
  if (path === 'field') return json(map(url));
  if (path === 'field/raster') return { status: 200, type: 'application/octet-stream', body: raster() };
  if (path === 'probe') { const p = probe(url.searchParams); return p ? json(p) : json({ code: 'not-found', says: 'No place is called that. Write a name from the map, or latitude and longitude such as 52.1 −4.2.' }, 404); }
  if (path === 'offers') return json({ state: 'none', why: null, answer: null, present: null });
  if (path === 'antennas') return json([]);
  if (path === 'link') return json(hops());
  if (path === 'studio') return json(studio());
  if (path === 'handover') return json({ rigging: [], acceptance: [] });
  if (path === 'papers') return json([{ name: 'offer.pdf', title: 'Offer', says: 'What you get, who will hear it, what it costs.', format: 'PDF', state: 'ready', why: null, size: '412 kB', written: '14 March 2031, 14:02' }, { name: 'bill.xlsx', title: 'Bill of materials', says: 'Every item with its price, with working sums.', format: 'Spreadsheet', state: 'old', why: 'power changed since', size: '18 kB', written: null }, { name: 'licence.pdf', title: 'Licence sheet', says: 'What the authority asks for.', format: 'PDF', state: 'missing', why: null, size: null, written: null }]);
  return json({ code: 'not-found', says: 'There is nothing at this address.' }, 404);
}
