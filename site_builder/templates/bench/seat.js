// Which seat a plate may have, and what a gasket under it asks for.
(function (kit) {
  "use strict";
  const { data, Refused, read, put, clear } = kit;
  const own = data && data.seat;

  const metres = (value) => (value === null ? 0 : bench.in_si(value, own.metres));
  const flag = (yes) => (yes ? 1 : 0);

  function asked(form) {
    const { form: shape, metal, block, service, found, failed, keep, later } = form.elements;
    if (failed.value === "yes" && !found.value) {
      throw new Refused(failed, failed.value, "no more than held, while nobody says what it was", "What was found");
    }
    return {
      form: shape.value, metal: metal.value, block: block.value, service: service.value,
      found: found.value, failed: failed.value === "yes", keep: keep.value === "yes", later: later.value === "yes",
    };
  }

  // Gives the seats in order, each with its verdict, its reasons and their weights.
  function seats(given) {
    const service = own.services.indexOf(given.service);
    const question = [
      service, flag(given.keep), flag(given.later), flag(own.heavy.includes(given.metal)),
      given.found ? (given.failed ? 2 : 1) : 0,
    ];
    const rows = own.seats.map((one) => {
      const facts = [
        bench.named_among(given.form, one.forms), bench.named_among(given.metal, one.metals),
        bench.named_among(given.block, one.blocks), ...one.facts, flag(one.id === given.found),
      ];
      const words = [
        bench.listed_words(one.forms), bench.listed_words(one.metals), bench.listed_words(one.blocks),
        one.refused, given.form, given.metal, given.block, own.serves[service], one.never, one.undone,
      ];
      const reasons = bench.seat_reasons(facts, question, words);
      const weights = reasons.map(([weight]) => weight);
      return {
        name: one.name, reasons, weights, verdict: bench.seat_verdict(weights, facts[11]),
        points: bench.seat_points(weights),
      };
    });
    return bench.seats_in_order(rows.map((one) => one.verdict), rows.map((one) => one.points)).map((place) => rows[place]);
  }

  function gasket(form) {
    const { gasket, thickness, plate_length, plate_width, plate_thickness, was, cells, fasteners } = form.elements;
    if (!gasket.value) return null;
    const sizes = [thickness, plate_length, plate_width, plate_thickness].map(read);
    return { material: gasket.value, sizes, was: read(was), cells: read(cells), fasteners: fasteners.value };
  }

  function gasketSaid(asks, metal) {
    const [thickness, ...plate] = asks.sizes.map(metres);
    const cells = asks.cells === null ? own.cells : [bench.share_of_percent(asks.cells), bench.share_of_percent(asks.cells)];
    const rule = own.rules[asks.fasteners];
    const found = bench.gasket_found([thickness, ...plate, ...cells, metres(asks.was)],
      own.gaskets[asks.material], own.moduli[metal], rule, own.loud);
    return bench.gasket_said(found, rule, own.us);
  }

  function commandLine(form, given, asks) {
    const { unit } = own;
    let line = `benchbinder seat --plate ${given.form} --metal ${given.metal} --block ${given.block} --service ${given.service}`;
    if (given.found) line += ` --found ${given.found}`;
    if (given.failed) line += " --failed";
    if (given.keep) line += " --keep-original";
    if (given.later) line += " --later-wax";
    if (asks) {
      const [thickness, length, width, plate] = asks.sizes;
      line += ` --gasket ${asks.material} --thickness ${thickness}${unit} --size ${length}x${width}${unit}` +
        ` --plate-thickness ${plate}${unit} --fasteners ${asks.fasteners}`;
      if (asks.was !== null) line += ` --was ${asks.was}${unit}`;
      if (asks.cells !== null) line += ` --cells ${asks.cells}%`;
    }
    put(form, "command", line);
  }

  kit.answers.seat = function (form) {
    const given = asked(form);
    const asks = gasket(form);
    const rows = seats(given);
    clear(form);
    kit.valves.fillCompact(form.querySelector("[data-rows=seats]"), rows.flatMap((one, place) => [
      [bench.seat_head_said(place + 1, one.name, one.verdict, bench.seat_points_said(one.weights))],
      ...one.reasons.map(([weight, words]) => [bench.reason_kind(weight), words]),
    ]));
    const [first] = rows;
    put(form, "summary", bench.first_seat_said(first.name, first.verdict, bench.seat_points_said(first.weights)));
    if (asks) gasketSaid(asks, given.metal).forEach((said, place) => put(form, `gasket-${place}`, said));
    commandLine(form, given, asks);
  };
})(window.bench_kit);
