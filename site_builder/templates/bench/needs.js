// The quick needs list: ranks of a layout or typed, seating, what is kept.
(function (kit) {
  "use strict";
  const { data, Refused, read, put, clear } = kit;
  const own = data && data.needs;
  const RANKS = [1, 2, 3, 4, 5, 6, 7, 8, 9];
  const WAX_HEAD = 4;

  // Valves and slots have their tables once, in data.valves.
  const reeds = data && data.valves;
  const noteName = (midi) => bench.name_of(midi, reeds.notes);

  // Gives the ranks typed: [{ lowest, count }].
  function ranks(form) {
    const found = [];
    for (const place of RANKS) {
      const [note, field] = ["lowest", "count"].map((name) => form.elements[`${name}${place}`]);
      const count = read(field);
      if (!note.value && count === null) continue;
      if (count === null) throw new Refused(field, "", field.dataset.accepted);
      if (!note.value) throw new Refused(note, "", "the lowest note of the rank");
      const lowest = Number(note.value);
      if (bench.outside(bench.last_note(lowest, count), 0, reeds.highest)) {
        throw new Refused(field, `${count}`, `so many that the highest note is no higher than ${noteName(reeds.highest)}`);
      }
      found.push({ lowest, count });
    }
    if (!found.length) throw new Refused(form.elements.lowest1, "", "a layout, or at least one rank");
    return found;
  }

  // Names the layout whose ranks stand in the form, if it is the one chosen.
  function layoutOf(form, found) {
    const { value } = form.elements.layout;
    const layout = own.layouts[value];
    const same = layout && layout.ranks.length === found.length &&
      found.every(({ lowest, count }, at) => `${lowest}` === layout.ranks[at][0] && `${count}` === layout.ranks[at][1]);
    return same ? value : "";
  }

  function asked(form) {
    const { tongues, seating, kept, session } = form.elements;
    const found = ranks(form);
    return {
      ranks: found, layout: layoutOf(form, found), tongues: read(tongues), seating: seating.value,
      kept: kept.value === "yes", session: read(session),
    };
  }

  function wax(given, notes, seat) {
    const [length, width] = reeds.lines;
    const rows = notes.flatMap((midis, group) => bench.rank_wax_rows(group, midis, given.tongues, seat.bedded,
      reeds.pitch, length[0], length[1], width[0], width[1], own.plate_rule));
    const found = bench.wax_need(rows, ...own.figures);
    const melt = [Math.max(0, found[0] - found[1]), found[0] + found[1]];
    const rule = bench.melted(rows.length, own.rule_each, own.losses);
    const ours = own.own_each.length ? bench.melted(rows.length, own.own_each, own.losses) : [];
    return {
      melt, rule, own: ours, ready: bench.wax_to_have(melt, rule, ours),
      shares: bench.half_shares(found.slice(WAX_HEAD), own.figures[1].length),
    };
  }

  function commandLine(form, given) {
    const layout = own.layouts[given.layout];
    const which = layout ? ` --layout ${given.layout}`
      : given.ranks.map(({ lowest, count }) => ` --rank ${noteName(lowest)}=${count}`).join("");
    const tongues = layout && layout.tongues === `${given.tongues}` ? "" : ` --tongues ${given.tongues}`;
    const session = given.session === own.session ? "" : ` --session ${given.session}h`;
    put(form, "command", `benchbinder job${which} --seating ${given.seating}${tongues}${given.kept ? " --keep valves" : ""}${session}`);
  }

  kit.answers.needs = function (form) {
    const given = asked(form);
    const seat = own.seatings[given.seating];
    const { kept, tongues } = given;
    const valved = seat.valved === "yes";
    const counts = given.ranks.map(({ count }) => count);
    const notes = given.ranks.map(({ lowest, count }) => bench.notes_up(lowest, count));
    const midis = notes.flat();
    const plates = midis.length;
    const [length, width] = reeds.lines;
    const classes = bench.class_ranges(midis, tongues, reeds.pitch, length[0], own.edges, own.band);
    const valves = valved ? bench.valves_range(plates * tongues, classes[own.bare]) : [0, 0, 0];
    const melt = seat.wax ? wax(given, notes, seat) : null;
    const pots = melt ? bench.pots_range(plates, bench.in_si(given.session, 3600), own.rates, melt.ready[1]) : [0, 0, 0, 0];
    const steps = own.steps[`${seat.group} ${kept ? "yes" : "no"} ${seat.valved}`].map((place) => own.step_rows[place]);
    const counted = (end, at) => [plates, plates * tongues, valves[end], counts.length, 1, pots[at]];
    const hours = bench.hours_by_group(steps, own.groups.length, counted(0, 0), counted(2, 1));
    const glue = bench.glue_range(valved && !kept ? midis : [], tongues, reeds.pitch, length[0], width[0],
      own.edges[own.bare][1], own.band, [reeds.wall, reeds.edge], reeds.rules, own.glue);
    const solvent = own.solvent.map((each) => plates * each);
    const needs = bench.count_rows(counts, tongues, classes, own.names, own.classes, valves, kept, valved);
    if (melt) {
      needs.push(...bench.wax_rows_said(melt.melt, melt.rule, own.rule_each, melt.own, melt.ready, reeds.us));
      needs.push(bench.pots_row(pots, given.session, reeds.us));
    }
    needs.push(...bench.used_rows(solvent, glue, reeds.us));
    clear(form);
    const { fillCompact } = kit.valves;
    fillCompact(form.querySelector("[data-rows=needs]"), needs);
    fillCompact(form.querySelector("[data-rows=hours]"), bench.hour_rows(hours, [...own.groups, own.words.all]));
    put(form, "summary", `${plates} plates: ${bench.ranks_said(counts)}.`);
    put(form, "hangs", melt ? bench.hangs_said(melt.shares, own.hangs, own.told) : "");
    const { unseen, apart, other, last, found, tuning } = own.words;
    put(form, "note", [unseen, melt ? apart : other, ...(seat.last ? [last] : []), found, tuning].join(" "));
    commandLine(form, given);
  };

  // A layout that is chosen fills in its ranks, its tongues and its seating.
  function follow(form) {
    const layout = own.layouts[form.elements.layout.value];
    if (!layout) return;
    for (const name of ["tongues", "seating"]) form.elements[name].value = layout[name];
    for (const place of RANKS) {
      const rank = layout.ranks[place - 1] || ["", ""];
      ["lowest", "count"].forEach((name, at) => { form.elements[`${name}${place}`].value = rank[at]; });
    }
  }

  const form = document.querySelector("form[data-working=needs]");
  if (form && own) form.elements.layout.addEventListener("input", () => follow(form));
})(window.bench_kit);
