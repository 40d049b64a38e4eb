import { entry, type Source } from "./source.ts";

/** Mathematics, statistics, designs, reference data sets. */
export const statisticsSources: readonly Source[] = [
  entry(
    "joe-kuo-2008",
    "paper",
    "Joe S., Kuo F.Y., Constructing Sobol sequences with better two-dimensional projections, SIAM J. Sci. Comput. 30 (2008) 2635",
  ),
  entry("burley-2020", "paper", "Burley B., Practical hash-based Owen scrambling, J. Comput. Graph. Tech. 9 (2020) 1"),
  entry(
    "owen-1995",
    "paper",
    "Owen A.B., Randomly permuted (t,m,s)-nets and (t,s)-sequences, in Monte Carlo and Quasi-Monte Carlo Methods, Springer, 1995",
  ),
  entry(
    "mckay-1979",
    "paper",
    "McKay M.D., Beckman R.J., Conover W.J., A comparison of three methods for selecting values of input variables, Technometrics 21 (1979) 239",
  ),
  entry(
    "blackman-vigna-2021",
    "paper",
    "Blackman D., Vigna S., Scrambled linear pseudorandom number generators, ACM Trans. Math. Softw. 47 (2021) 36",
  ),
  entry(
    "cody-1969",
    "paper",
    "Cody W.J., Rational Chebyshev approximations for the error function, Math. Comput. 23 (1969) 631",
  ),
  entry(
    "wichura-1988",
    "paper",
    "Wichura M.J., Algorithm AS 241: the percentage points of the normal distribution, Appl. Stat. 37 (1988) 477",
  ),
  entry("loader-2000", "paper", "Loader C., Fast and accurate computation of binomial probabilities (2000)"),
  entry("dlmf", "handbook", "NIST Digital Library of Mathematical Functions"),
  entry(
    "quadpack-1983",
    "handbook",
    "Piessens R. et al., QUADPACK: A Subroutine Package for Automatic Integration, Springer, 1983",
  ),
  entry("brent-1973", "handbook", "Brent R.P., Algorithms for Minimization without Derivatives, Prentice-Hall, 1973"),
  entry(
    "golub-van-loan-2013",
    "handbook",
    "Golub G.H., Van Loan C.F., Matrix Computations, 4th ed., Johns Hopkins University Press, 2013",
  ),
  entry(
    "fritsch-carlson-1980",
    "paper",
    "Fritsch F.N., Carlson R.E., Monotone piecewise cubic interpolation, SIAM J. Numer. Anal. 17 (1980) 238",
  ),
  entry(
    "hyndman-fan-1996",
    "paper",
    "Hyndman R.J., Fan Y., Sample quantiles in statistical packages, Am. Stat. 50 (1996) 361",
  ),
  entry(
    "wilson-1927",
    "paper",
    "Wilson E.B., Probable inference, the law of succession, and statistical inference, J. Am. Stat. Assoc. 22 (1927) 209",
  ),
  entry(
    "clopper-pearson-1934",
    "paper",
    "Clopper C.J., Pearson E.S., The use of confidence or fiducial limits illustrated in the case of the binomial, Biometrika 26 (1934) 404",
  ),
  entry("gelman-bda3", "handbook", "Gelman A. et al., Bayesian Data Analysis, 3rd ed., CRC Press, 2013"),
  entry("geyer-1992", "paper", "Geyer C.J., Practical Markov chain Monte Carlo, Stat. Sci. 7 (1992) 473"),
  entry(
    "haario-2001",
    "paper",
    "Haario H., Saksman E., Tamminen J., An adaptive Metropolis algorithm, Bernoulli 7 (2001) 223",
  ),
  entry(
    "vehtari-2021",
    "paper",
    "Vehtari A. et al., Rank-normalization, folding, and localization: an improved R-hat, Bayesian Anal. 16 (2021) 667",
  ),
  entry("nist-strd", "dataset", "National Institute of Standards and Technology, Statistical Reference Datasets"),
  entry("nist-handbook", "handbook", "NIST/SEMATECH e-Handbook of Statistical Methods"),
  entry(
    "bliss-1935",
    "dataset",
    "Bliss C.I., The calculation of the dosage-mortality curve, Ann. Appl. Biol. 22 (1935) 134",
  ),
  entry(
    "dalal-1989",
    "dataset",
    "Dalal S.R., Fowlkes E.B., Hoadley B., Risk analysis of the space shuttle, J. Am. Stat. Assoc. 84 (1989) 945",
  ),
  entry("firth-1993", "paper", "Firth D., Bias reduction of maximum likelihood estimates, Biometrika 80 (1993) 27"),
  entry("mil-hdbk-1823a", "handbook", "MIL-HDBK-1823A, Nondestructive Evaluation System Reliability Assessment (2009)"),
  entry(
    "dixon-mood-1948",
    "paper",
    "Dixon W.J., Mood A.M., A method for obtaining and analyzing sensitivity data, J. Am. Stat. Assoc. 43 (1948) 109",
  ),
  entry(
    "plackett-burman-1946",
    "paper",
    "Plackett R.L., Burman J.P., The design of optimum multifactorial experiments, Biometrika 33 (1946) 305",
  ),
  entry(
    "box-behnken-1960",
    "paper",
    "Box G.E.P., Behnken D.W., Some new three level designs for the study of quantitative variables, Technometrics 2 (1960) 455",
  ),
  entry("aiag-msa", "handbook", "AIAG, Measurement Systems Analysis, reference manual"),
  entry(
    "cohen-1960",
    "paper",
    "Cohen J., A coefficient of agreement for nominal scales, Educ. Psychol. Meas. 20 (1960) 37",
  ),
];
