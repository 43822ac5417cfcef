// SPDX-License-Identifier: MIT
// A way through time: go to a moment, then run through stops at a pace each, and halt at the last to
// the second. A hand on the time ends it.

const ahead_s = 0.3;  // a stop is asked for this long before it is reached, in seconds of the watch

export class Travel {
  constructor(say) {
    this.say = say;
    this.plan = null;
  }

  /// plan: {from_s: a moment to go to first, or null, stops: [{until_s, pace}]}; at_s: where time stands.
  begin(plan, at_s) {
    const from = plan.from_s ?? at_s;
    const stops = plan.stops.filter((s) => s.until_s > from);
    this.plan = { from_s: plan.from_s ?? null, stops, pace: 0 };
    if (plan.from_s !== null && plan.from_s !== undefined) this.say({ do: "jump", to_s: Math.round(plan.from_s) });
    else this.on();
  }

  /// At the pace of the stop that is next.
  on() {
    const [stop] = this.plan.stops;
    if (!stop) {
      this.plan = null;
      return;
    }
    this.plan.pace = stop.pace;
    this.say({ do: "pace", times: stop.pace });
  }

  cancel() {
    this.plan = null;
  }

  frame(frame) {
    const plan = this.plan;
    if (!plan || frame.jumping) return;
    if (plan.from_s !== null) {
      if (Math.abs(frame.at_s - plan.from_s) > 1) return;
      plan.from_s = null;
      this.on();
      return;
    }
    const stop = plan.stops[0];
    if (frame.at_s < stop.until_s - stop.pace * ahead_s) return;
    plan.stops.shift();
    if (plan.stops.length) this.on();
    else {
      this.plan = null;
      this.say(frame.at_s < stop.until_s ? { do: "jump", to_s: Math.round(stop.until_s) } : { do: "pace", times: 0 });
    }
  }
}
