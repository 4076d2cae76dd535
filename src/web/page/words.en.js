// Every text of the page that the server does not send. Another language is another file like this one.
const W = {
  app: 'Ohmstead',
  tabs: { find: 'Find', panel: 'Panel', floor: 'Floor', trace: 'Trace', write: 'Write', outage: 'Outage' },
  titles: { find: 'Find', panel: 'Panel', floor: 'Floor plan', trace: 'Trace', write: 'Write down', outage: 'Power outage', plan: 'The plan',
    more: 'This page', pair: 'Join this house', thing: 'Thing', handle: 'Handle' },
  skip: 'To the content', menu: 'Settings', back: '\u2039 Back', close: 'Close', cancel: 'Cancel', ok: 'OK', loading: 'Loading ...', undo: 'Undo',
  fault: 'Something in this page went wrong. What you entered before is kept.', reload: 'Load the page again',
  saved: (r, d) => `Saved file, revision ${r}, ${d}`,
  and: ' and ',
  n: (count, one, many) => `${count} ${count === 1 ? one : many}`,
  things: n => W.n(n, 'thing', 'things'),
  // connection
  offline: 'No connection. What you tap is kept on this phone and sent when it is back.',
  kept: n => `${n === 1 ? 'One answer is' : n + ' answers are'} kept on this phone, sent when the connection is back.`,
  sent: 'Everything that was kept is sent.', unreachable: 'The house computer cannot be reached. Is this phone on the Wi-Fi of the house?',
  refused: 'Not taken: ', tryAgain: 'Try again',
  // pairing
  pairHelp: 'The house computer shows an 8-digit code where `ohmstead serve` runs. Type or paste it here.',
  code: 'Code', yourName: 'Your name, for the others', join: 'Join', joining: 'Joining ...', welcome: name => `You are in, ${name}.`,
  anyone: 'This phone',
  roleNo: { trace: 'This phone may only look. For tracing, join again with a code for tracing.', write: 'This phone may not change the record. Join again with a code for changing.' },
  readOnly: 'The record is open for reading only.', inFile: 'This is a saved file: it shows the record as it was, and changes nothing.',
  // find
  search: 'What are you looking for?', searchHint: 'dish washer, 14, kitchen lights ...', nothing: q => `Nothing here is called "${q}".`,
  tryWords: 'Try one word of its name, its room, or a breaker number.', found: n => n === 1 ? 'One match' : `${n} matches`, clear: 'Clear', byRoom: 'By room', emptyHouse: 'Nothing is written down yet.',
  room: 'Room', handle: 'Handle',
  // a thing
  fedBy: 'Switch off', notKnown: 'Not known which breaker feeds it.', inPanel: (panel, place) => `Panel ${panel}, ${place}`,
  standing: { proved: 'Proved by switching', declared: 'As somebody said; not checked', likely: 'Likely, not proved', disputed: 'Disputed: looks disagree', open: 'Not traced' },
  backupYes: 'On backup', backupNo: 'Not on backup', backupOpen: 'Backup: not known', noSource: 'No backup source is written down.',
  backupBy: t => `In an outage it is carried by ${t}.`, backupNone: 'In an outage nothing carries it.',
  alsoOff: 'What else goes off', onlyThis: 'Nothing else goes off with it.', work: 'Before you work on it', way: 'Its way back to the source', thisThing: 'this',
  details: 'What is known of it', tryOff: 'Show it switched off', restore: 'If it is dead: how to bring it back', deadNow: 'Dead now?', onPlan: 'Show it on the floor plan',
  carries: 'What it carries', carriesNothing: 'Nothing is known to hang on it.', openHandle: 'Open',
  // panel
  panelHelp: 'Touch a handle to see what it takes down. Nothing real is switched.', empty: 'empty', on: 'ON', off: 'OFF', tied: 'tied', amps: a => a ? `${a} A` : '? A',
  main: 'Main', what: 'What if', allBack: 'All as usual', see: 'See what', usual: 'The usual here', log: 'What was done', asUsual: 'Everything stands as on an ordinary day.', position: n => `Position ${n}`, nowIs: s => `now ${s}`,
  moved: 'Moved', goesOff: 'Goes off', partLive: 'Part live: does not work, and can still kill', unknown: 'Not traced: may be off, may be live', comesOn: 'Comes on', noChange: 'Nothing that is known changes.',
  short: (off, part, unknown) => [off && `${off} off`, part && `${part} part live`, unknown && `${unknown} not known`].filter(Boolean).join(', ') || 'nothing changes',
  joined: 'NEVER DO THIS. Two sources, or two legs, would be joined: it can kill somebody on the line, and burn the source.',
  interlocked: (a, b) => `${a} and ${b} may never both be on. The interlock must stop you.`,
  sources: 'Sources', live: 'live', dead: 'dead', runs: 'runs', stands: 'does not run', transfer: 'Transfer device', panelOf: 'Which panel',
  testFirst: 'This goes by the record. Before touching a conductor: test the tester on something live, test, and test the tester again. Local code and a licensed electrician decide.',
  state: ['works', 'OFF', 'PART LIVE', 'NOT KNOWN'],
  // floor
  larger: 'Larger', smaller: 'Smaller', list: 'Rooms of this floor', floorOf: 'Which floor', planOf: f => `Floor plan of ${f}. The list below says the same.`,
  kinds: { receptacle: 'receptacle', light: 'light', appliance: 'appliance', alarm: 'alarm', fan: 'fan', other: 'something else' }, north: 'North is up.',
  legend: 'Numbers are circuits; a question mark: not proved. Crossed out: off.',
  // plan
  noPlan: 'No plan is kept.', planLink: 'The plan: what runs on which leg', ofLimit: (w, l) => `${w} of ${l} W`, startUp: w => `with the largest start ${w} W more`, half: 'half of it', onDemand: 'Now and then', limit: l => `limit ${l} W`, leg: 'Leg', planTable: 'The same as a table', load: 'Load', watts: 'W', free: w => `${w} W free`,
  // trace
  whereAreYou: 'Where are you?', alone: 'Alone: I do both', atPanel: 'At the panel, somebody else is in the rooms', inRooms: 'In the rooms, somebody else is at the panel', noHurry: 'You can change this at any time.',
  places: { panel: 'at the panel', rooms: 'in the rooms', both: 'alone', away: 'away' }, change: 'Change',
  answers: { done: 'DONE', dead: 'DEAD', live: 'LIVE', not_sure: 'NOT SURE', skip: 'SKIP' },
  answersHint: { dead: 'nothing there', live: 'it has power' },
  kindsOfStep: { caution: 'First', open: 'Switch OFF', look: 'Look', close: 'Switch ON', ask_dead: 'Look again', put_lamp: 'Put a lamp in', take_lamp: 'Fetch the lamp', done: 'Finished' },
  why: 'Why this?', offNow: 'Off now', nothingOff: 'Everything is on.', left: (s, t, m) => `${s} of ${t} settled` + (m > 0 ? `, about ${m} min left` : ''), ready: 'READY', notReady: 'Not ready', isReady: (n, p) => `${n}, ${p}: READY`, isNotReady: (n, p) => `${n}, ${p}: not ready yet`,
  readyHelp: 'Tap when it may go dark here: nobody on a ladder, nothing in use.', readyPanel: 'Tap when you stand at the panel.', waitOther: n => `Wait for ${n}`, waitReady: n => `Hands off. ${n} is not ready yet.`, movesNow: n => `${n} is told to do this now:`, looksNow: n => `${n} is asked this now:`, nextIs: 'Comes next:', handsOff: 'Nothing to do at the panel now. Leave every handle as it is.',
  noPartner: p => p === 'panel' ? 'Nobody is in the rooms yet. Let the other phone join, open Trace and say "in the rooms".' : 'Nobody is at the panel yet. Let the other phone join, open Trace and say "at the panel".', somebody: 'the other one',
  whichSkip: 'Which one cannot be moved?', more: 'More', foundIt: 'Found something that is not in the list', staysOff: 'A breaker tripped and will not come on', wrongLook: 'An earlier answer was wrong', manner: 'How we work', retry: 'Try the skipped ones again', summary: 'What is settled so far',
  whatFound: 'What is it?', nameIt: 'Its name (may stay empty)', placeIt: 'Where in the room (may stay empty)', addIt: 'Add it', whichBreaker: 'Which breaker?', whichLook: 'Which of these was wrong? The last one stands first.', noLooks: 'Nothing was seen yet that could be taken back.', takenBack: 'Taken back.', wasSkip: 'Written down: it stays off.', added: t => `Written down: ${t}.`,
  atOnce: 'Breakers off at one time', any: 'any number', lamps: 'Plug-in lamps at hand', onlyPlan: 'Only what matters in an outage', method: 'How you look', methods: { tester: 'with a tester', lamp: 'with a lamp', non_contact: 'without contact', look: 'by looking', listening: 'by listening', other: 'otherwise' }, rooms: 'Only these rooms (none: the whole house)', save: 'Save', savedNow: 'Saved.', answered: a => `${a}: written down.`, waits: a => `${a} is kept on this phone. The next step comes with the connection.`, elsewhere: 'The other one has answered.', youReady: 'You are READY.', these: n => `these ${n} breakers`, turn: (what, off, here) => `${here ? 'Turn' : 'At the panel:'} ${what} ${off ? 'OFF' : 'ON'}`, calledOut: /^Go on when the helper/,
  recorded: 'Written down.', undone: 'The last answer is taken back.', finished: 'Tracing is finished.', seeResult: 'See the panel',
  // write down
  pickRoom: 'Which room are you in?', newRoom: 'A new room', roomName: 'Name of the room', onFloor: 'Floor', addRoom: 'Add the room', tapThings: 'One tap for each thing.', inRoom: 'Written down here', otherThing: 'Something else', otherHint: 'kiln 5 kW 240 V, light "porch lamp" ...', lastWas: t => `Last: ${t}`, sayWhere: 'Say where or which', sayWhereHint: 'at the sink, "porch lamp", 180 W ...', anotherRoom: 'Rooms', panels: 'Panels', newPanel: 'A new panel', panelName: 'Name of the panel', spaces: 'Spaces', mainAmps: 'Main breaker', lugs: 'none (lugs)', addPanel: 'Add the panel', space: 'Next space', poles: 'Poles', ampsOf: 'Amps', label: 'Old label (may stay empty)', addBreaker: 'Add breaker', skipSpace: 'Empty space', notSent: 'not sent yet', noFloor: 'Ground', commons: 'Things', moreThings: 'More things', breakersOf: p => `Breakers of ${p}`, allWritten: 'Every space is written down.', enterLine: 'Write',
  undoGone: 'The last tap was taken back before it was sent.', cannotName: 'Something else was changed since; write it as a new thing.',
  // outage
  outageAnswers: { done: 'DONE', no: 'NO', no_effect: 'DONE, but nothing came on' }, outageBy: { ask_away: ['YES', 'NO'], ask_back: ['YES', 'NO'], start_source: ['IT RUNS', 'It will not start'], move: ['DONE', 'It cannot be moved'], switch_off: ['IT IS OFF', 'It cannot be switched off'], switch_on: ['IT IS ON', 'Not wanted', 'It did not come on'], no_source: ['TRY AGAIN'], look_over: ['TRY AGAIN', 'Leave it'], refuel: ['IT IS FULL', 'Go on without'], end: ['YES, IT IS OVER'] },
  now: 'Now', status: 'How it stands', may: 'May I switch on ...?', mayHint: 'hair dryer, kettle 1500 W ...', atHint: 'where it is plugged in (may stay empty)', ask: 'Ask', did: 'I have ...', didOn: 'switched it on', didOff: 'switched it off', what2: 'What', where2: 'Where', happened: 'Something happened', events: { gone: 'The power is gone', back: 'The power from the street is back', 'gave-up': 'The source gave up: overload', stopped: 'The source stopped', refuel: 'Fill the tank now', refuelled: 'It was filled' }, gives: 'It gives no more than (W)', note: 'A line for the log', tell: 'Tell', movedHandle: 'A handle was moved', movedHint: 'T3 backup, 12 off ...', sure: t => `${t}?`, fuelLeft: (a, b) => `Fuel for ${a} to ${b} h at what is drawn now`, drawn: (w, l) => `${w} of ${l} W`, startOutage: 'The power is gone', inFileOutage: 'What to do, as on the wall sheet', onlyLook: 'This phone may look, not answer.',
  // more
  look: 'Look', looks: { auto: 'As the phone', day: 'Day', night: 'Night' }, hand: 'Hand', hands: { right: 'Right', left: 'Left' }, device: 'This phone', role: r => ({ look: 'may look', trace: 'may trace', change: 'may change the record' }[r] || r), house: 'House', revision: r => `revision ${r}`, plain: 'Read everything as one plain page', again: 'Join again', cautions: 'Cautions', privateLeft: 'Private notes are left out of this file.',
};
