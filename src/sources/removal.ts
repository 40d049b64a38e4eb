import { entry, type Source } from "./source.ts";

const unread = "read in summary only; unknown inputs are listed beside each use";

/** Thresholds, ablation laws and published cleaning experiments. */
export const removalSources: readonly Source[] = [
  entry(
    "liu-1982",
    "paper",
    "Liu J.M., Simple technique for measurements of pulsed Gaussian-beam spot sizes, Opt. Lett. 7 (1982) 196",
  ),
  entry(
    "jee-1988",
    "paper",
    "Jee Y., Becker M.F., Walser R.M., Laser-induced damage on single-crystal metal surfaces, J. Opt. Soc. Am. B 5 (1988) 648",
  ),
  entry(
    "phipps-1988",
    "paper",
    "Phipps C.R. et al., Impulse coupling to targets in vacuum by KrF, HF, and CO2 single-pulse lasers, J. Appl. Phys. 64 (1988) 1083",
    "trend of the best-coupling fluence with the root of the pulse width, from memory",
  ),
  entry(
    "brygo-2006",
    "paper",
    "Brygo F. et al., Laser fluence, repetition rate and pulse duration effects on paint ablation, Appl. Surf. Sci. 252 (2006) 2131",
    unread,
  ),
  entry("zhang-2022", "paper", "Zhang D. et al., Appl. Phys. A 128 (2022), doi 10.1007/s00339-022-05296-4", unread),
  entry("li-wq-2023", "paper", "Li W.Q. et al., Photonics 10 (2023) 96", unread),
  entry("li-y-2023", "paper", "Li Y. et al., Appl. Opt. 62 (2023) 2855", unread),
  entry("sun-2021", "paper", "Sun X. et al., Photonics 8 (2021) 395", unread),
  entry("li-y-2024", "paper", "Li Y. et al., Photonics 11 (2024) 82", unread),
  entry("osticioli-siano-2013", "paper", "Osticioli I., Siano S., Proc. SPIE 9065 (2013) 906513", unread),
  entry("moffat-2024", "paper", "Moffat et al., J. Vac. Sci. Technol. A 42 (2024) 023111", unread),
  entry("tourunen-2025", "paper", "Tourunen et al., IOP Conf. Ser.: Mater. Sci. Eng. 1332 (2025) 012020", unread),
  entry(
    "kim-jd-abstracts",
    "paper",
    "Kim J.-D. et al., papers on removal of shop primer and epoxy from steel with a Q-switched fibre source",
    "abstracts only",
  ),
  entry("liu-g-2023", "paper", "Liu G. et al., Laser Optoelectron. Prog. 60 (2023) 1514001", unread),
  entry("miao-2022", "paper", "Miao et al., J. Laser Appl. 34 (2022) 012002", unread),
];
