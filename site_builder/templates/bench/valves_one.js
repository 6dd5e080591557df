// One valve on one slot.
(function (kit) {
  "use strict";
  const { Refused, read, put, clear } = kit;
  const { own, metres, areal, atHand, answered, reasons, told, noteName, fillCompact } = kit.valves;

  function asked(form) {
    const { slot_length, slot_width, sounds, frequency, wall, edge, room, face, posture, way, overhang, mass, thickness, of, droop } = form.elements;
    const piece = way.value === "own";
    const given = {
      length: read(slot_length), width: read(slot_width), hertz: sounds.value ? null : read(frequency),
      midi: sounds.value ? Number(sounds.value) : null,
      wall: read(wall), edge: read(edge), room: read(room),
      face: face.value, posture: posture.value, way: way.value, piece, of: of.value,
      overhang: piece ? read(overhang) : null, mass: piece ? read(mass) : null, thickness: piece ? read(thickness) : null,
      droop: read(droop),
    };
    if (given.width > given.length) throw new Refused(slot_width, `${given.width}`, `a width up to the length, ${given.length} ${own.length}`);
    if (!sounds.value && given.hertz === null) throw new Refused(frequency, "", frequency.dataset.accepted);
    if (piece && given.overhang === null && given.droop === null) {
      throw new Refused(overhang, "", `${overhang.dataset.accepted}, or the droop of a cut valve`);
    }
    return given;
  }

  function stocksOf(form, given, sizes) {
    let stocks = given.piece ? atHand([]) : atHand([given.way]);
    if (given.piece) {
      const { numbers, kind, known } = own.pieces[given.of];
      const typed = bench.with_readings(numbers, metres(given.overhang), areal(given.mass), metres(given.thickness), own.factor, known);
      stocks.push({ id: given.of, kind, numbers: typed });
    }
    if (given.droop === null) return stocks;
    const droop = metres(given.droop);
    const most = bench.largest_droop(sizes[4], own.told[0]);
    if (bench.outside(droop, bench.least_droop(own.droop_error), most)) {
      const accepted = `${bench.length_said(bench.least_droop(own.droop_error), own.us)} to ${bench.length_said(most, own.us)}, what a rule can read and straight-line bending`;
      throw new Refused(form.elements.droop, `${given.droop}`, accepted);
    }
    return stocks
      .filter(({ id }) => id === (given.piece ? given.of : given.way))
      .map((one) => ({ ...one, numbers: bench.with_droop(one.numbers, droop, own.droop_error, sizes[4]) }));
  }

  function commandLine(form, given) {
    const long = (name, value) => (value === null ? "" : ` --${name} ${value}${own.length}`);
    put(form, "command", `benchbinder valves --slot ${given.length}x${given.width}${own.length}` +
      ` --sounds ${given.midi === null ? `${given.hertz}Hz` : noteName(given.midi)}` +
      (given.face === "outside" ? "" : ` --face ${given.face}`) +
      (given.posture === "upright-block" ? "" : ` --posture ${given.posture}`) +
      long("wall", given.wall) + long("edge", given.edge) + long("room", given.room) +
      (given.piece
        ? (given.overhang === null ? "" : ` --bending ${bench.half(given.overhang)}${own.length}`) +
          ` --mass ${given.mass}${own.areal}` + long("thickness", given.thickness) + (given.of === "film" ? " --film" : "")
        : ` --stock ${given.way}`) +
      long("droop", given.droop));
  }

  // Says of a stock that was not chosen what is against it, or how far it should hang.
  function runner(one, stocks) {
    const stock = stocks.find(({ numbers }) => numbers[11] > 0);
    if (!stock || one.stock) return "";
    const [found, low, high, ratios, least, most, limits, verdict] =
      bench.judged(one.sizes, one.slot, own.openings, own.pressures, own.limits, stock.numbers);
    const window = bench.window_of(one.sizes, one.slot, own.openings, own.pressures, own.limits, stock.numbers[0]);
    const words = bench.runner_words(stock.numbers, found, low, high, ratios, least, most, limits, own.limits, window, own.words.abouts, own.us);
    return `${stock.id}: ${own.words.verdicts[verdict[0]]}; ${words}`;
  }

  function foundRows(one) {
    const { abouts, others } = own.words;
    return one.found.map((value, place) => {
      const judged = place < abouts.length;
      return bench.found_row(judged ? abouts[place] : others[place - abouts.length], place, value, one.low[place], one.high[place],
        judged ? one.limits[place] : 0, judged ? own.limits[place][2] : 0, own.us);
    });
  }

  kit.answers["one-valve"] = function (form) {
    const body = form.querySelector("[data-rows=found]");
    const table = body.closest("table");
    table.hidden = true;
    answer(form);
    table.hidden = body.children.length === 0;
  };

  function answer(form) {
    const given = asked(form);
    const frequency = given.midi === null ? given.hertz : bench.frequency(given.midi, own.pitch);
    const hanging = own.postures[given.posture][given.face === "inside" ? 0 : 1];
    const [length, width, wall, edge, room] = ["length", "width", "wall", "edge", "room"].map((name) => metres(given[name]));
    const sizes = bench.valve_sizes(length, width, wall, edge, own.rules);
    const stocks = stocksOf(form, given, sizes);
    const one = answered(bench.slot_numbers_of(length, width, hanging, frequency, room), frequency, wall, edge, stocks);
    clear(form);
    const { window } = one;
    put(form, "summary", bench.verdict_words(one.kind, one.stock, one.topper, one.verdict, one.margin));
    put(form, "cut", bench.cut_words(one.sizes, own.us));
    put(form, "window", bench.window_words(window[0], window[1], window[2], own.us));
    put(form, "reasons", one.kind === kit.valves.NOT_MEASURED ? own.words.nothing : reasons(one).join("; "));
    put(form, "helper", bench.helper_words(one.helper, own.least_helper, own.words.light));
    put(form, "stock", runner(one, stocks));
    put(form, "told", told(one).join("; "));
    put(form, "do", own.words.do[bench.to_do(one.kind, one.verdict, one.passed)]);
    fillCompact(form.querySelector("[data-rows=found]"), foundRows(one));
    commandLine(form, given);
  }
})(window.bench_kit);
