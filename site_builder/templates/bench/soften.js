// Estimate softening.
(function (kit) {
  "use strict";
  const { data, read, readParts, name, percent, degrees, warmth, put, clear, command } = kit;

  function soften(form) {
    const parts = readParts(form);
    const shares = bench.part_shares(parts.map(({ part }) => part));
    const id = kit.estimate.chosenMethod(parts, shares, form.elements.method.value);
    const target = read(form.elements.target);
    const blend = kit.estimate.arranged(parts, shares, id);
    clear(form);
    const method = form.elements.method.value ? ` --method ${id}` : "";
    const aim = target === null ? "" : ` --target ${target}${data.degrees.slice(1)}`;
    command(form, parts, method + aim);
    put(form, "summary", kit.estimate.spoken(blend));
    put(form, "method", data.methods[id].name);
    if (blend.unknown) return;
    const band = kit.estimate.bandOf(blend);
    const { tests } = blend.method;
    put(form, "middle", `${bench.printed(degrees(band[1]), 0)} ${data.degrees}, the middle of the band and no more`);
    put(form, "band", warmth(band));
    put(form, "tests", `${tests} tests of this shop${tests ? "" : ": the ratio does not decide this"}`);
    const of = turnedPlace(parts, blend);
    if (target !== null) put(form, "target", aimed(blend, of, target));
    put(form, "next", nextTest(blend, of, band));
  }

  // The share a repairer would turn: the first resin, else the last component.
  function turnedPlace(parts, blend) {
    const resin = parts.find(({ id }) => data.materials[id].resin);
    return blend.order.indexOf((resin || parts[parts.length - 1]).id);
  }

  function aimed(blend, of, target) {
    const celsius = data.degrees === "°F" ? bench.celsius_of(target) : target;
    const limit = data.figures.softener;
    const ranges = blend.order.length < 2
      ? []
      : bench.open_shares(celsius, blend.list, of, blend.bodies, limit, ...blend.model);
    const said = `${target} ${data.degrees}`;
    if (!ranges.length) return `No share of this blend has a band that reaches ${said}.`;
    const shown = ranges.map(([low, high]) => `${bench.printed(100 * low, 0)} to ${percent(high, 0)}`);
    return `For ${said} the ratio does not decide: ${name(blend.order[of])} at ${shown.join(" and ")} cannot be ruled out.`;
  }

  function nextTest(blend, of, band) {
    const { softener, noise } = data.figures;
    const [share, after] = bench.share_to_test(blend.list, of, blend.bodies, softener, blend.model[3], noise);
    const tested = bench.turned(blend.list, of, share);
    const shown = blend.order.map((id, place) => `${percent(tested[place], 0)} ${name(id)}`);
    const now = bench.band_half_width(
      bench.blend_terms(bench.body_shares(blend.list, blend.bodies), bench.softener_share(blend.list, blend.bodies)),
      blend.model[3]);
    return `${shown.join(", ")}, by ${blend.method.name}. One reading would bring the band from ` +
      `± ${bench.printed(now, 1)} to ± ${bench.printed(after, 1)} °C.`;
  }

  kit.answers.soften = soften;
})(window.bench_kit);
