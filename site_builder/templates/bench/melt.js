// Heat a pot.
(function (kit) {
  "use strict";
  const { data, Refused, read, readParts, name, percent, degrees, span, put, clear, fill, command } = kit;
  const own = data && data.melt;
  const celsius = (value) => (data.degrees === "°F" ? bench.celsius_of(value) : value);
  const limitSaid = (value) => `${bench.whole_below(degrees(value))} ${data.degrees}`;
  const floorSaid = (value) => `${bench.whole_above(degrees(value))} ${data.degrees}`;
  const put_in = (words, facts) =>
    Object.entries(facts).reduce((said, [key, text]) => said.replaceAll(`{${key}}`, text), words);

  const capital = (text) => text[0].toUpperCase() + text.slice(1);

  // A table without rows is not shown.
  function showTables(form) {
    for (const table of ["ceilings", "heat"]) {
      const body = form.querySelector(`[data-rows=${table}]`);
      body.closest("table").hidden = body.children.length === 0;
    }
  }

  function lowest(parts, key) {
    const known = parts.filter(({ id }) => own.materials[id][key] !== null);
    if (!known.length) return null;
    const place = bench.lowest_of(known.map(({ id }) => own.materials[id][key]));
    return { id: known[place].id, limit: own.materials[known[place].id][key] };
  }

  function ceilings(parts, purpose, bath) {
    const { words, high, pot, note, basis } = own.purposes[purpose];
    const found = [];
    if (pot) found.push(own.ceilings["over-temperature"]);
    if (pot && bath) found.push(own.ceilings["water-bath"]);
    const fume = lowest(parts, "fume");
    if (fume) found.push(named("fume-onset", fume.id, fume.limit, "fume_basis"));
    const flash = lowest(parts, "flash");
    if (flash) found.push(named("flash-point", flash.id, bench.below_flash(flash.limit, own.figures.margin), "flash_basis"));
    found.push({ limit: high, words: put_in(own.ceilings.window.words, { purpose: words }), note, basis });
    return found.sort((one, other) => (one.limit < other.limit ? -1 : Number(one.limit > other.limit)));
  }

  function named(key, id, limit, basis) {
    const { words, note } = own.ceilings[key];
    return { limit, words: put_in(words, { name: name(id) }), note, basis: own.materials[id][basis] };
  }

  function windowOf(parts, purpose, bath) {
    const { low, high } = own.purposes[purpose];
    const melting = parts
      .map(({ id }) => ({ id, own: own.materials[id].own[purpose] }))
      .filter((one) => one.own !== null);
    const floor = bench.window_floor(low, high, melting.map((one) => one.own));
    const by = floor > low ? melting.find((one) => one.own === floor) : undefined;
    const all = ceilings(parts, purpose, bath);
    return { purpose, floor, by: by && by.id, ceilings: all, governing: all[bench.lowest_of(all.map((one) => one.limit))] };
  }

  // Gives the words of a refusal, or nothing.
  function refusedHeat(found, typed, goal, bath) {
    const bathCeiling = own.ceilings["water-bath"].limit;
    const { floor, governing, purpose } = found;
    const reason = bench.heat_verdict(goal, floor, governing.limit, bath, bathCeiling);
    if (!reason) return "";
    const low = reason === "floor";
    const above = found.ceilings.slice(1).filter((one) => bench.lies_above(goal, one.limit));
    const limit = reason === "bath" ? bathCeiling : governing.limit;
    return put_in(own.words.reasons[reason], {
      to: typed === null ? floorSaid(floor) : `${typed} ${data.degrees}`,
      limit: low ? floorSaid(floor) : limitSaid(limit),
      what: low ? own.purposes[purpose].words : governing.words,
      also: above.map((one) => put_in(own.words.also, { what: one.words, limit: limitSaid(one.limit) })).join(""),
      floor: floorSaid(floor),
      holding: own.words.holding,
      windows: own.words.windows,
    });
  }

  function refusedHeater(way, dry) {
    const { reasons } = own.words;
    if (way === "flame" || way === "hot-plate") return reasons[way];
    return way === "thermostat" && (dry === "wet" || dry === "from-bath") ? reasons[dry] : "";
  }

  function asked(form) {
    const { purpose, to, total, way, bath, dry, power, start, width } = form.elements;
    const inBath = way.value === "bath";
    const { pot } = own.purposes[purpose.value];
    return {
      purpose: purpose.value,
      pot,
      way: way.value,
      dry: dry.value,
      inBath,
      to: read(to),
      total: read(total),
      bath: inBath ? read(bath) : 0,
      power: read(power),
      start: read(start),
      width: read(width),
      vessels: ["vessel", "second"]
        .map((each) => ({ of: form.elements[each].value, mass: read(form.elements[`${each}_mass`]) }))
        .filter(({ mass }) => mass),
    };
  }

  function options(given) {
    const unit = data.degrees.slice(1);
    const { pot } = given;
    const dry = pot && given.way === "thermostat" ? { dried: " --from-bath --dried", "from-bath": " --from-bath", wet: " --wet" }[given.dry] || "" : "";
    return (pot ? ` --total ${given.total}${data.scale.unit}` : "") +
      ` --for ${given.purpose}` +
      (given.to === null ? "" : ` --to ${given.to}${unit}`) +
      (pot && given.start !== null ? ` --start ${given.start}${unit}` : "") +
      (pot ? (given.inBath ? ` --bath ${given.bath}${own.volume}` : ` --heater ${given.way}`) : "") +
      dry +
      (pot && given.power !== null ? ` --power ${given.power}W` : "") +
      (pot ? given.vessels.map(({ of, mass }) => ` --vessel ${of}=${mass}${data.scale.unit}`).join("") : "") +
      (pot && given.width !== null ? ` --width ${given.width}${own.length}` : "");
  }

  function melt(form) {
    const parts = readParts(form);
    const shares = bench.part_shares(parts.map(({ part }) => part));
    const given = asked(form);
    const found = windowOf(parts, given.purpose, given.inBath);
    const goal = given.to === null ? found.floor : celsius(given.to);
    const refused = (given.pot && refusedHeater(given.way, given.dry)) || refusedHeat(found, given.to, goal, given.inBath && given.pot);
    clear(form);
    command(form, parts, options(given));
    if (refused) {
      put(form, "summary", `Refused: ${refused}`);
      return;
    }
    if (given.pot && bench.lies_above(celsius(given.start), goal)) {
      throw new Refused(form.elements.start, `${given.start}`, `${data.degrees} up to the heat wanted`);
    }
    putWindow(form, parts, found, goal);
    if (given.pot) putPot(form, parts, shares, given, goal);
    else put(form, "time", own.words.no_iron);
    put(form, "unknown", unknown(parts, given.purpose).join(" "));
    put(form, "notes", notes(parts, given).join(" "));
  }

  function putWindow(form, parts, found, goal) {
    const { words } = own.purposes[found.purpose];
    const by = found.by ? `, by ${name(found.by)}` : "";
    put(form, "window", `${capital(words)}: floor ${floorSaid(found.floor)}${by}, ceiling ${limitSaid(found.governing.limit)}.`);
    put(form, "governed", `Governed by ${found.governing.words}.`);
    fill(form, "ceilings", found.ceilings.map((one) => [
      `${capital(one.words)}${one === found.governing ? own.words.governs : ""}.${one.note ? ` ${one.note}` : ""} Basis: ${one.basis}.`,
      bench.whole_below(degrees(one.limit))]));
    const colour = lowest(parts, "colour");
    put(form, "quality", colour ? put_in(own.words.quality, {
      what: name(colour.id),
      limit: limitSaid(colour.limit),
      passed: goal > colour.limit ? own.words.passed : own.words.not_passed,
    }) : own.words.no_colour);
  }

  function putPot(form, parts, shares, given, goal) {
    const { kilograms, unit, shown } = data.scale;
    const { figures } = own;
    const masses = bench.component_kilograms(given.total, shares, kilograms);
    const of = (key, end) => parts.map(({ id }) => own.materials[id][key][end]);
    const water = bench.bath_kilograms(given.bath, own.cubic_metres, figures.water_density);
    const ends = [0, 1].map((end) => bench.pot_heat(
      masses, of("heat", end), of("latent", end), of("melting", 0), of("melting", 1), celsius(given.start), goal,
      given.vessels.map(({ mass }) => bench.in_unit(mass, kilograms)),
      given.vessels.map((one) => own.vessels[one.of]),
      water, figures.water_heat[end],
      bench.bath_goal(goal, figures.lead[end], own.ceilings["water-bath"].limit), end === 1));
    fill(form, "heat", Object.values(own.rows)
      .map((words, place) => [words, ...ends.map((end) => bench.printed(bench.kilojoules(end[place]), 0)), ends[1][place]])
      .filter((row) => row[3])
      .map((row) => row.slice(0, 3)));
    const lost = figures.lost[given.inBath ? "bath" : "thermostat"];
    const minutes = (end) => bench.heater_minutes(ends[end][5], given.power, lost[end]);
    const time = given.power === null ? own.words.no_power : span(minutes(0), minutes(1), "min");
    put(form, "time", time);
    put(form, "summary", given.power === null ? "" : `${time} at ${given.power} W, by estimate. Stay at the pot from switching on to switching off.`);
    const volumes = [0, 1].map((end) => bench.melt_millilitres(masses, parts.map(({ id }) => data.materials[id].densities[end])));
    put(form, "volume", span(Math.min(...volumes), Math.max(...volumes), "mL"));
    put(form, "pot", `${bench.printed(bench.pot_millilitres(Math.max(...volumes), data.figures.filled), 0)} mL`);
    putSink(form, of, masses, given, { unit, shown });
  }

  function putSink(form, of, masses, given, { unit, shown }) {
    const cold = [0, 1].map((end) => bench.cold_volumes(masses, of("density", end === 0 ? 1 : 0)));
    const lost = [0, 1].map((end) => bench.blend_shrinkage(cold[end], of("shrink", end)));
    const warm = [0, 1].map((end) => bench.warm_volume(cold[end], of("shrink", end)));
    put(form, "loses", `${bench.printed(100 * lost[0], 0)} to ${percent(lost[1], 0)} of its hot volume`);
    const topped = lost.map((share) => bench.printed(bench.top_up_amount(given.total, share), own.places[unit]));
    put(form, "topup", `${topped.join(" to ")} ${shown}`);
    if (given.width === null) {
      put(form, "sink", own.words.no_width);
      return;
    }
    const width = bench.in_unit(given.width, own.metres);
    const sink = (end, deeper) => bench.printed(
      bench.in_unit(bench.sink_millimetres(lost[end], warm[end], width, deeper), own.from_millimetres), own.places[own.length]);
    const said = (deeper) => `${sink(0, deeper[0])} to ${sink(1, deeper[1])} ${own.length}`;
    put(form, "sink", `${said([1, 1])} on the mean, ${said(own.figures.deeper)} at the middle`);
  }

  function unknown(parts, purpose) {
    const known = parts.map(({ id }) => own.materials[id]);
    return [
      ...known.map((one) => one.floor_unknown[purpose]),
      ...known.map((one) => one.flash_unknown),
      known.every((one) => one.fume === null) ? own.words.no_fume : "",
    ].filter(Boolean);
  }

  function notes(parts, given) {
    const { stay, by_power, kinds, melts_same, higher_up } = own.words;
    if (!given.pot) return [kinds];
    const unmelting = parts.map(({ id }) => own.materials[id].no_melting).filter(Boolean);
    const told = parts.map(({ id }) => own.materials[id].told).filter(Boolean);
    return [stay, by_power, kinds, melts_same, ...unmelting, ...told, ...(given.inBath ? [higher_up] : [])];
  }

  kit.answers.melt = function (form) {
    try {
      melt(form);
    } finally {
      showTables(form);
    }
  };
})(window.bench_kit);
