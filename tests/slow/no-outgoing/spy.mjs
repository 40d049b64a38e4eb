// Loaded before everything else in the server's process: notes every try to reach somebody.
import { appendFileSync } from "node:fs";
import dgram from "node:dgram";
import dns from "node:dns";
import net from "node:net";

const note = (what) => appendFileSync(process.env.OUTGOING_LOG, `${what}\n`);

const { connect } = net.Socket.prototype;
net.Socket.prototype.connect = function (...args) {
  note(`connect ${JSON.stringify(args[0])}`);
  return connect.apply(this, args);
};
const { send } = dgram.Socket.prototype;
dgram.Socket.prototype.send = function (...args) {
  note("datagram");
  return send.apply(this, args);
};
for (const name of Object.keys(dns).filter((n) => /^(lookup|resolve|reverse)/.test(n))) {
  const asked = dns[name];
  dns[name] = (...args) => {
    // The address that the server listens on is no question to anybody.
    if (args[0] !== "127.0.0.1") note(`dns ${name} ${args[0]}`);
    return asked(...args);
  };
}
note("listening in");
