using MathNet.Numerics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What a run does not know about its counts, at one point of the sampling.</summary>
/// <param name="Clumping">Size of the negative binomial law of one aliquot.</param>
/// <param name="Detection">Chance to be seen in the look at hand, attraction to light included.</param>
internal readonly record struct CountUnknowns(double Clumping, double Detection);

/// <summary>The likelihood of a count, ready to be computed on many totals.</summary>
internal sealed partial class CountTerm
{
    private readonly CountEvidence _evidence;
    private readonly (int Aliquots, int Seen, double Share)[] _groups = [];
    private readonly double _constant;
    private readonly double _oddSplit = 1;

    private const double LogTwoPi = 1.8378770664093453;

    private CountTerm(CountEvidence evidence)
    {
        _evidence = evidence;
        switch (evidence)
        {
            case AliquotEvidence { Samples: var samples }:
                _groups =
                [
                    .. samples
                        .GroupBy(sample => sample.Share)
                        .Select(group => (group.Count(), group.Sum(sample => sample.Seen), group.Key)),
                ];
                Seen = samples.Sum(sample => sample.Seen);
                Share = samples.Sum(sample => sample.Share);
                _constant = samples.Sum(sample =>
                    (sample.Seen * Math.Log(sample.Share)) - SpecialFunctions.FactorialLn(sample.Seen)
                );
                _oddSplit = Math.Exp(LogSplit(samples));
                break;
            case AliquotSumEvidence sum:
                Seen = sum.Seen;
                Share = sum.Share;
                _constant = (Seen * Math.Log(Share)) - SpecialFunctions.FactorialLn(Seen);
                break;
            case KnownChanceEvidence known:
                Seen = known.Seen;
                Share = known.Chance;
                _constant = (Seen * Math.Log(Share)) - SpecialFunctions.FactorialLn(Seen);
                break;
            case KnownClumpingEvidence clumped:
                Seen = clumped.Seen;
                Share = clumped.Share;
                _constant = (Seen * Math.Log(Share)) - SpecialFunctions.FactorialLn(Seen);
                break;
            case TrialledEvidence trialled:
                Seen = trialled.Seen;
                Share = trialled.Found / (trialled.Found + trialled.Missed);
                _constant =
                    SpecialFunctions.GammaLn(Seen + trialled.Found)
                    - SpecialFunctions.BetaLn(trialled.Found, trialled.Missed)
                    - SpecialFunctions.FactorialLn(Seen);
                break;
            case FullEvidence full:
                Seen = full.Seen;
                Share = 1;
                break;
            case ExactEvidence exact:
                Seen = exact.Seen;
                Share = 1;
                break;
            case LookEvidence look:
                Seen = look.Seen;
                Share = 0;
                _constant = LogRising(look.Scatter, Seen) - SpecialFunctions.FactorialLn(Seen);
                break;
            case AtLeastEvidence least:
                Seen = least.Seen;
                Share = 1;
                break;
            default:
                throw new ArgumentException(
                    $"No likelihood for {evidence.GetType().Name}.",
                    nameof(evidence)
                );
        }
    }

    /// <summary>What was seen in all.</summary>
    internal int Seen { get; }

    /// <summary>Share of the total expected to be seen; 0 where detection tells it.</summary>
    internal double Share { get; }

    /// <summary>Whether it is an exact number.</summary>
    internal bool IsExact => _evidence is ExactEvidence;

    /// <summary>Detection class of a look; -1 for other kinds.</summary>
    internal int Class => _evidence is LookEvidence look ? look.Class : -1;

    /// <summary>Whether larvae past the attraction to light escape it.</summary>
    internal bool FadesWithLight => _evidence is LookEvidence { FadesWithLight: true };

    /// <summary>Whether it only says that so many are there at least.</summary>
    internal bool IsLowerBound => _evidence is AtLeastEvidence;

    /// <summary>Whether its likelihood is cut off at what was seen.</summary>
    internal bool HasEdge => _evidence is KnownChanceEvidence or TrialledEvidence;

    internal static CountTerm Of(CountEvidence evidence) => new(evidence);

    /// <summary>
    /// How likely the count would be if the entry were plainly wrong: any number up to a few times the one seen.
    /// </summary>
    internal double OddLikelihood => (IsLowerBound ? 0.5 : 1.0 / (2 * (Seen + 10))) * _oddSplit;

    /// <summary>Where the likelihood has its weight: a middle and a rough standard deviation of the total.</summary>
    internal (double Middle, double Spread) Focus(in CountUnknowns unknowns)
    {
        var share = Class >= 0 ? unknowns.Detection : Share;
        var middle = (Seen + 0.5) / share;
        return _evidence switch
        {
            FullEvidence full => (Seen, 0.5 + (full.ErrorCv * Seen)),
            KnownChanceEvidence => (middle, Math.Sqrt((Seen + 1) * (1 - share + 0.05)) / share),
            AtLeastEvidence => (Seen, double.PositiveInfinity),
            TrialledEvidence t => (
                middle,
                middle * Math.Sqrt((1.0 / (Seen + 1)) + (1 / Math.Min(t.Found, t.Missed)))
            ),
            _ => (middle, middle * Math.Sqrt((1.0 / (Seen + 1)) + (1 / Size(unknowns)))),
        };
    }

    /// <summary>The natural logarithm of the likelihood on a grid of totals.</summary>
    internal void LogLikelihood(
        ReadOnlySpan<double> totals,
        ReadOnlySpan<double> logTotals,
        in CountUnknowns unknowns,
        Span<double> result
    )
    {
        switch (_evidence)
        {
            case AliquotEvidence aliquots:
                var k = unknowns.Clumping;
                var constant = _constant;
                foreach (var sample in aliquots.Samples)
                {
                    constant += LogRising(k, sample.Seen);
                }

                result.Fill(constant);
                foreach (var (count, seen, share) in _groups)
                {
                    AddNegativeBinomial(totals, logTotals, count * k, k, seen, share, result);
                }

                break;
            case AliquotSumEvidence sum:
                var size = sum.Aliquots * unknowns.Clumping;
                result.Fill(_constant + LogRising(size, Seen));
                AddNegativeBinomial(totals, logTotals, size, size, Seen, Share, result);
                break;
            case KnownClumpingEvidence clumped:
                result.Fill(_constant + LogRising(clumped.Size, Seen));
                AddNegativeBinomial(totals, logTotals, clumped.Size, clumped.Size, Seen, Share, result);
                break;
            case LookEvidence look:
                result.Fill(_constant + (Seen * Math.Log(unknowns.Detection)));
                AddNegativeBinomial(
                    totals,
                    logTotals,
                    look.Scatter,
                    look.Scatter,
                    Seen,
                    unknowns.Detection,
                    result
                );
                break;
            case KnownChanceEvidence { Chance: var chance }:
                Binomial(totals, chance, result);
                break;
            case TrialledEvidence trialled:
                BetaBinomial(totals, trialled, result);
                break;
            case FullEvidence full:
                Full(totals, full, result);
                break;
            case AtLeastEvidence:
                AtLeast(totals, result);
                break;
            default:
                throw new InvalidOperationException("An exact count is no density.");
        }
    }

    private double Size(in CountUnknowns unknowns) =>
        _evidence switch
        {
            AliquotEvidence aliquots => aliquots.Samples.Count * unknowns.Clumping,
            AliquotSumEvidence sum => sum.Aliquots * unknowns.Clumping,
            KnownClumpingEvidence clumped => clumped.Size,
            LookEvidence look => look.Scatter,
            _ => 1e6,
        };

    // How probable it is that what was seen in all lies so in the aliquots, with the usual clumping: a wrong entry says
    // nothing of the number, but its aliquots are as much alike as those of a right one.
    private double LogSplit(IReadOnlyList<SampledShare> samples)
    {
        const double usualClumping = 5;
        var sum = SpecialFunctions.FactorialLn(Seen) - LogRising(usualClumping * samples.Count, Seen);
        foreach (var sample in samples)
        {
            sum +=
                LogRising(usualClumping * samples.Count * sample.Share / Share, sample.Seen)
                - SpecialFunctions.FactorialLn(sample.Seen);
        }

        return sum;
    }

    // ln of k (k+1) ... (k+x-1), which is ln Gamma(x+k) - ln Gamma(k).
    private static double LogRising(double k, int x)
    {
        if (x > 24)
        {
            return SpecialFunctions.GammaLn(x + k) - SpecialFunctions.GammaLn(k);
        }

        var product = 1.0;
        for (var i = 0; i < x; i++)
        {
            product *= k + i;
        }

        return Math.Log(product);
    }

    // x ln(mean) - (x + size) ln(size + mean) + size ln(size), where several aliquots of one share stand together:
    // all their sizes are the same k, so the mean of one is compared with one k.
    private static void AddNegativeBinomial(
        ReadOnlySpan<double> totals,
        ReadOnlySpan<double> logTotals,
        double allSizes,
        double size,
        int seen,
        double share,
        Span<double> result
    )
    {
        var weight = seen + allSizes;
        Span<double> logs = stackalloc double[totals.Length];
        for (var i = 0; i < totals.Length; i++)
        {
            logs[i] = size + (share * totals[i]);
        }

        ManyNumbers.Log(logs, logs);
        var constant = allSizes * Math.Log(size);
        for (var i = 0; i < totals.Length; i++)
        {
            result[i] += constant + (seen * logTotals[i]) - (weight * logs[i]);
        }
    }

    private void Binomial(ReadOnlySpan<double> totals, double chance, Span<double> result)
    {
        var missed = chance < 1 ? Math.Log(1 - chance) : double.NegativeInfinity;
        for (var i = 0; i < totals.Length; i++)
        {
            var unseen = Math.Max(0, totals[i] - Seen);
            result[i] =
                IsTooFew(totals[i]) ? double.NegativeInfinity
                : chance >= 1 ? (unseen < 0.5 ? 0 : double.NegativeInfinity)
                : _constant
                    + SpecialFunctions.GammaLn(Seen + unseen + 1)
                    - SpecialFunctions.GammaLn(unseen + 1)
                    + (unseen * missed);
        }
    }

    private void BetaBinomial(ReadOnlySpan<double> totals, TrialledEvidence trialled, Span<double> result)
    {
        for (var i = 0; i < totals.Length; i++)
        {
            var unseen = Math.Max(0, totals[i] - Seen);
            result[i] = IsTooFew(totals[i])
                ? double.NegativeInfinity
                : _constant
                    + SpecialFunctions.GammaLn(Seen + unseen + 1)
                    - SpecialFunctions.GammaLn(unseen + 1)
                    + SpecialFunctions.GammaLn(unseen + trialled.Missed)
                    - SpecialFunctions.GammaLn(Seen + unseen + trialled.Found + trialled.Missed);
        }
    }

    // A whole number stands for the real ones from half below it.
    private bool IsTooFew(double total) => total < Seen - 0.5;

    private void Full(ReadOnlySpan<double> totals, FullEvidence full, Span<double> result)
    {
        Span<double> variances = stackalloc double[totals.Length];
        Span<double> logs = stackalloc double[totals.Length];
        for (var i = 0; i < totals.Length; i++)
        {
            variances[i] = 0.25 + (full.ErrorCv * full.ErrorCv * totals[i] * totals[i]);
        }

        ManyNumbers.Log(variances, logs);
        for (var i = 0; i < totals.Length; i++)
        {
            var off = Seen - totals[i];
            result[i] = -0.5 * ((off * off / variances[i]) + logs[i] + LogTwoPi);
        }
    }

    // Rises with the total and never falls, so that such a look cannot lower the estimate.
    private void AtLeast(ReadOnlySpan<double> totals, Span<double> result)
    {
        var width = 0.3 + (0.03 * Seen);
        for (var i = 0; i < totals.Length; i++)
        {
            // So far below nothing one is not moved by it, and numbers next to nothing are slow.
            result[i] = Math.Clamp((Seen - 0.5 - totals[i]) / width, -700, 700);
        }

        ManyNumbers.Exp(result, result);
        for (var i = 0; i < totals.Length; i++)
        {
            result[i] += 1;
        }

        ManyNumbers.Log(result, result);
        for (var i = 0; i < totals.Length; i++)
        {
            result[i] = -result[i];
        }
    }
}
