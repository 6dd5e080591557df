// Mix a batch.
(function (kit) {
  "use strict";
  const { data, Refused, read, readParts, name, percent, span, put, clear, fill, command } = kit;

  // Gives the wanted total in the unit of the scale, and how the command line says it.
  function wanted(form, parts, shares) {
    const { unit, grams } = data.scale;
    const { plate, strained, potted } = data.figures;
    const fields = form.elements;
    if (fields.way.value === "plates") {
      const plates = read(fields.plates);
      const need = [0, 1].map((end) => bench.plates_total(plates, plate[end], strained[end], potted[end], grams));
      return { total: need[1], rest: ` --plates ${plates}`, need };
    }
    if (fields.way.value === "have") {
      const held = read(fields.held);
      const of = parts.findIndex(({ id }) => id === fields.of.value);
      const total = bench.limited_total(held, shares[of]);
      return { total, rest: ` --have ${fields.of.value}=${held}${unit}`, held, of };
    }
    const total = read(fields.total);
    return { total, rest: ` --total ${total}${unit}` };
  }

  function mix(form) {
    const { shown, kilograms } = data.scale;
    const { strained, potted, filled } = data.figures;
    const parts = readParts(form);
    const shares = bench.part_shares(parts.map(({ part }) => part));
    const ask = wanted(form, parts, shares);
    const step = read(form.elements.step);
    let steps = bench.steps_of(ask.total, step);
    if (ask.held) steps = bench.steps_within(shares, steps, ask.of, ask.held, step);
    const counts = bench.weigh_out(shares, steps);
    if (Math.min(...counts) < 1) {
      throw new Refused(form.elements.way, `${bench.printed(ask.total, 2)} ${shown}`,
        "enough that each material weighs at least one step of the scale", "Total");
    }
    const decimals = bench.decimals_of(step);
    const weight = (count) => bench.printed(bench.mass_of(count, step), decimals);
    const rows = parts.map(({ id }, place) => [
      name(id), percent(shares[place], 2), weight(counts[place]),
      percent(bench.share_by_mass(counts[place], steps), 2)]);
    const masses = bench.batch_masses(counts, step, kilograms);
    const [most, least] = [1, 0].map((end) =>
      bench.melt_millilitres(masses, parts.map(({ id }) => data.materials[id].densities[end])));
    const left = [1, 0].map((end) => bench.left_after_losses(ask.total, strained[end], potted[end]));
    const unpriced = parts.filter(({ id }) => data.materials[id].price === null);
    const blend = kit.estimate.arranged(parts, shares, kit.estimate.chosenMethod(parts, shares, ""));
    clear(form);
    fill(form, "weights", rows);
    put(form, "total", weight(steps));
    put(form, "summary", `Weigh out ${weight(steps)} ${shown}: ` +
      parts.map(({ id }, place) => `${name(id)} ${weight(counts[place])} ${shown}`).join(", ") + ".");
    put(form, "left", span(...left, shown));
    put(form, "volume", span(least, most, "mL"));
    put(form, "pot", `${bench.printed(bench.pot_millilitres(most, filled), 0)} mL`);
    put(form, "cost", unpriced.length
      ? `not known: no price for ${unpriced.map(({ id }) => name(id)).join(", ")}`
      : `${bench.printed(bench.batch_cost(masses, parts.map(({ id }) => data.materials[id].price)), 2)} ${data.currency}`);
    put(form, "softening", kit.estimate.spoken(blend));
    put(form, "notes", mixNotes(ask, parts, shares, counts).join(" "));
    command(form, parts, ask.rest);
  }

  function mixNotes(ask, parts, shares, counts) {
    const notes = parts.map(({ id }) => data.materials[id].density_told).filter(Boolean).map((told) => `${told}.`);
    const drift = bench.telling_drift(shares, counts);
    if (ask.need) notes.unshift(`The plates take ${span(...ask.need, data.scale.shown)}: weighed out for the high end.`);
    if (drift) notes.unshift(`The scale's step moves the ratio by ${percent(drift, 1)} of the batch: weigh more at once, or use a finer scale.`);
    if (parts.some(({ id }) => data.materials[id].softens)) {
      notes.push("A softener takes firmness away; how much is from memory. Test before use.");
    }
    return notes;
  }

  kit.answers.mix = mix;
})(window.bench_kit);
