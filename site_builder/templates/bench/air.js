// How much vapour a task puts into a room, with its curve over time.
(function (kit) {
  "use strict";
  const { data, Refused, read, put, clear } = kit;
  const own = data && data.air;
  const FIRST_LIMIT = 7, MINUTE = 60, HOUR = 3600;

  const si = (value, each) => (value === null ? null : bench.in_si(value, each));
  const seconds = (value) => si(value, MINUTE);

  function celsius(value) {
    if (value === null) return own.celsius;
    return bench.in_si(own.us ? bench.celsius_of(value) : value, 1);
  }

  function asked(form) {
    const { solvent, amount, over, repeat, every, area, room, changes, temperature, start, heat } = form.elements;
    const typed = Object.fromEntries(
      Object.entries({ amount, over, repeat, every, area, room, changes, temperature, start }).map(([name, field]) => [name, read(field)]));
    const length = seconds(typed.over);
    const spacing = typed.every === null ? length : seconds(typed.every);
    if (spacing < length) throw new Refused(every, every.value, `${typed.over} min or more, as long as one takes`);
    if ((typed.repeat - 1) * spacing + length > own.longest * (1 + 1e-9)) {
      throw new Refused(repeat, repeat.value, "tasks that end within eight hours, from the start of the first");
    }
    return { solvent: solvent.value, heat: heat.value, typed, task: [length, spacing, typed.repeat] };
  }

  function reckoned({ solvent, typed, task }) {
    const liquid = own.solvents[solvent];
    const hourly = typed.changes === null ? own.changes : typed.changes;
    const changes = hourly === null ? own.unknown : [hourly / HOUR, hourly / HOUR];
    const room = [si(typed.room, own.each.room), ...changes, celsius(typed.temperature) + 273.15, ...own.pressure];
    const volume = si(typed.amount, own.each.amount);
    const vapours = bench.air_vapours(liquid.parts, liquid.laws, [volume, volume], room, own.speed,
      si(typed.area, own.each.area) || 0, task[0]);
    const start = si(typed.start, 1e-6) || 0;
    const limits = liquid.limits.filter((one) => one.length > 2);
    const found = bench.air_found(vapours, start, room, task, own.rule, limits.map((one) => one.slice(2)), limits.map((one) => one[1]));
    return { liquid, room, task, vapours, starts: bench.start_shares(vapours, start), limits, found };
  }

  function limitRows({ liquid, limits, found }) {
    return liquid.limits.flatMap((one) => {
      const place = limits.indexOf(one);
      return place < 0 ? [[`${one[0]}: none set`]] : [[one[0]], bench.limit_cells(found[FIRST_LIMIT + place])];
    });
  }

  function draw(form, { liquid, room, task, vapours, starts, limits }) {
    const times = bench.curve_times(task);
    const curve = (end, factor) => bench.air_curve(vapours, starts, room, task, times, end, factor);
    const curves = [curve(0, 1), curve(1, 1), curve(1, own.rule[1])];
    const lines = liquid.parts.length > 1 ? [] : limits.map(([label, , [, byMass, value]]) =>
      [bench.limit_line(value, byMass, vapours[0], room), label]);
    const levels = lines.map(([level]) => level), names = lines.map(([, label]) => label.replace(/ \(.*\)$/, ""));
    kit.valves.draw(form.querySelector("[data-chart=air]"), own.title,
      bench.air_chart_words(times, ...curves, levels, names), bench.air_marks(times, ...curves, levels, names, own.size));
  }

  function commandLine(form, { solvent, heat, typed }) {
    const { units } = own;
    let line = `benchbinder air ${solvent} --amount ${typed.amount}${units.amount} --over ${typed.over}min --room ${typed.room}${units.room}`;
    if (typed.changes !== null) line += ` --air-changes ${typed.changes}`;
    if (typed.area !== null) line += ` --area ${typed.area}${units.area}`;
    if (typed.temperature !== null) line += ` --temperature ${typed.temperature}${units.temperature}`;
    if (typed.repeat > 1) line += ` --repeat ${typed.repeat}`;
    if (typed.every !== null) line += ` --every ${typed.every}min`;
    if (typed.start !== null) line += ` --start ${typed.start}ppm`;
    if (heat) line += ` --heat ${heat}`;
    put(form, "command", line);
  }

  kit.answers.air = function (form) {
    const given = asked(form);
    const one = reckoned(given);
    const { found, room, liquid, limits } = one;
    const verdict = bench.jar_verdict(found[6][1], liquid.flash, room[3] - 273.15);
    clear(form);
    const summary = bench.air_summary(liquid.name, found[0][0], found[0][3], bench.limits_passed(found), limits.length) + ".";
    if (given.heat) {
      const [what, why] = own.heats[given.heat];
      put(form, "summary", `${own.refused.replace("{what}", what).replace("{why}", why)} ${summary}`);
    } else {
      put(form, "summary", summary);
      put(form, "look", own.look);
    }
    bench.air_said(found, verdict, own.rule, own.window, limits.length).forEach((said, place) => put(form, `air-${place}`, said));
    kit.valves.fillCompact(form.querySelector("[data-rows=limits]"), limitRows(one));
    draw(form, one);
    commandLine(form, given);
  };
})(window.bench_kit);
