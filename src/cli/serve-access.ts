import { X509Certificate } from "node:crypto";
import { readFile } from "node:fs/promises";
import { isIP } from "node:net";
import { networkInterfaces } from "node:os";
import { createSecureContext } from "node:tls";
import { type Access, isLoopback, loopbackOnly, newAccessWord } from "#server";
import { invalid } from "#units";

export interface AccessFlags {
  /** address to listen on; the loopback address when left out */
  readonly host?: string;
  /** further names under which the machine is known on its network */
  readonly name?: readonly string[];
  /** PEM files; both or none */
  readonly keyFile?: string;
  readonly certFile?: string;
}

const NAME = /^[a-z0-9]([a-z0-9.-]{0,251}[a-z0-9])?$/;
const everywhere = (host: string): boolean => host === "0.0.0.0" || host === "::";

/** Addresses of this machine that other machines can reach. */
function ownAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  return all.filter((a) => !a.internal && a.family === "IPv4").map((a) => a.address);
}

/** As it stands in an address of a page: IPv6 in brackets. */
export const inUrl = (host: string): string => (isIP(host) === 6 ? `[${host.toLowerCase()}]` : host.toLowerCase());

async function pem(field: string, path: string): Promise<Buffer> {
  return readFile(path).catch(() => invalid(field, path, "", "cannot be read"));
}

async function readTls({ keyFile, certFile }: AccessFlags): Promise<Access["tls"]> {
  if (keyFile === undefined && certFile === undefined) return null;
  if (keyFile === undefined) return invalid("key file", "missing", "", "--key-file and --cert-file belong together");
  if (certFile === undefined) return invalid("cert file", "missing", "", "--key-file and --cert-file belong together");
  const tls = { key: await pem("key file", keyFile), cert: await pem("cert file", certFile) };
  try {
    createSecureContext(tls);
  } catch {
    invalid("cert file", certFile, "", "is no PEM certificate that goes with the key file");
  }
  return tls;
}

/** Hosts that the certificate does not speak for. */
function unnamed(cert: Buffer, hosts: readonly string[]): string[] {
  const named = new X509Certificate(cert);
  return hosts.filter((host) => (isIP(host) ? named.checkIP(host) : named.checkHost(host)) === undefined);
}

export interface OpenedAccess {
  readonly access: Access;
  /** hosts under which a phone reaches the pages; none on the loopback address */
  readonly reach: readonly string[];
  /** what whoever starts the server should know, one sentence each */
  readonly warnings: readonly string[];
}

/**
 * Who may come in by what the command line says. Nobody from outside on the loopback address; beyond it whoever has the
 * word that is made here. Throws InvalidInput for addresses, names and files that do not fit.
 */
export async function openAccess(flags: AccessFlags): Promise<OpenedAccess> {
  const host = flags.host ?? "127.0.0.1";
  if (!isLoopback(host) && isIP(host) === 0)
    invalid("host", host, "", "must be an IP address of this machine, or 0.0.0.0 for all that it has");
  const names = (flags.name ?? []).map((name) => name.toLowerCase());
  for (const name of names) if (!NAME.test(name)) invalid("name", name, "", "must be a name as in an address, no port");
  const tls = await readTls(flags);
  if (isLoopback(host)) {
    if (names.length > 0) invalid("name", names[0], "", "needs --host: this machine alone is served");
    return { access: { ...loopbackOnly, tls }, reach: [], warnings: [] };
  }
  const reach = [...(everywhere(host) ? ownAddresses() : [host]), ...names];
  const warnings: string[] = [];
  if (tls === null)
    warnings.push(
      "Without --key-file and --cert-file anybody on this network can read along, and phones keep no page for when the network is lost.",
    );
  else {
    const foreign = unnamed(tls.cert, reach);
    if (foreign.length > 0) warnings.push(`The certificate does not name ${foreign.join(", ")}: browsers will object.`);
  }
  return { access: { hosts: reach.map(inUrl), word: newAccessWord(), tls }, reach, warnings };
}
