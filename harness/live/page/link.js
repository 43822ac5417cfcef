// SPDX-License-Identifier: MIT
// The line to the bench: JSON text both ways; when it breaks it is tried again, ever more slowly.

const first_wait_ms = 500;
const longest_wait_ms = 8000;

/// hear(message) for each message; tell(state) with "up", "down" or "trying".
export class Link {
  constructor(hear, tell) {
    this.hear = hear;
    this.tell = tell;
    this.wait_ms = first_wait_ms;
    this.connect();
  }

  connect() {
    const scheme = location.protocol === "https:" ? "wss:" : "ws:";
    this.socket = new WebSocket(`${scheme}//${location.host}/bench`);
    this.socket.addEventListener("open", () => {
      this.wait_ms = first_wait_ms;
      this.tell("up");
    });
    this.socket.addEventListener("message", (event) => this.take(event.data));
    this.socket.addEventListener("close", () => this.lost());
  }

  take(text) {
    let message;
    try {
      message = JSON.parse(text);
    } catch {
      return;  // not for us: the bench speaks JSON
    }
    if (message && typeof message.is === "string") this.hear(message);
  }

  lost() {
    this.tell("down", this.wait_ms);
    setTimeout(() => {
      this.tell("trying");
      this.connect();
    }, this.wait_ms);
    this.wait_ms = Math.min(longest_wait_ms, this.wait_ms * 2);
  }

  /// False when the line is down: nothing is kept for later, since a late hand would surprise.
  say(message) {
    if (this.socket.readyState !== WebSocket.OPEN) {
      this.tell("down", this.wait_ms);
      return false;
    }
    this.socket.send(JSON.stringify(message));
    return true;
  }
}
