using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <content>The same likelihoods for several suppositions in step, one a lane.</content>
internal sealed partial class CountTerm
{
    /// <summary>Whether its likelihood is computed in lanes; the other kinds are computed one by one.</summary>
    internal bool HasLanes =>
        _evidence
            is AliquotEvidence
                or AliquotSumEvidence
                or KnownClumpingEvidence
                or LookEvidence
                or FullEvidence
                or AtLeastEvidence;

    /// <summary>Where the likelihood has its weight, by lane: see the twin for one supposition.</summary>
    internal (Lane Middle, Lane Spread) Focus(Lane clumping, Lane detection)
    {
        switch (_evidence)
        {
            case FullEvidence full:
                return (new(Seen), new(0.5 + (full.ErrorCv * Seen)));
            case AtLeastEvidence:
                return (new(Seen), new(double.PositiveInfinity));
            default:
                var middle = new Lane(Seen + 0.5) / (Class >= 0 ? detection : new Lane(Share));
                return (
                    middle,
                    middle * Vector.SquareRoot(new Lane(1.0 / (Seen + 1)) + (Lane.One / Size(clumping)))
                );
        }
    }

    /// <summary>The natural logarithm of the likelihood on a grid of totals, by lane.</summary>
    /// <param name="totals">The totals, point by point.</param>
    /// <param name="logTotals">Their logarithms.</param>
    /// <param name="clumping">Size of the law of one aliquot.</param>
    /// <param name="detection">Chance to be seen in the look at hand.</param>
    /// <param name="result">Receives one for each point.</param>
    /// <param name="room">As long, for use in between.</param>
    internal void LogLikelihood(
        ReadOnlySpan<Lane> totals,
        ReadOnlySpan<Lane> logTotals,
        Lane clumping,
        Lane detection,
        Span<Lane> result,
        Span<Lane> room
    )
    {
        switch (_evidence)
        {
            case AliquotEvidence aliquots:
                var constant = new Lane(_constant);
                foreach (var sample in aliquots.Samples)
                {
                    constant += Lanes.LogRising(clumping, sample.Seen);
                }

                result.Fill(constant);
                foreach (var (count, seen, share) in _groups)
                {
                    AddNegativeBinomial(
                        totals,
                        logTotals,
                        new Lane(count) * clumping,
                        clumping,
                        seen,
                        new(share),
                        result,
                        room
                    );
                }

                break;
            case LookEvidence:
                result.Fill(new Lane(_constant) + (new Lane(Seen) * Lanes.Log(detection)));
                var scatter = Size(clumping);
                AddNegativeBinomial(totals, logTotals, scatter, scatter, Seen, detection, result, room);
                break;
            case FullEvidence full:
                Full(totals, full, result, room);
                break;
            case AtLeastEvidence:
                AtLeast(totals, result);
                break;
            default:
                var size = Size(clumping);
                result.Fill(new Lane(_constant) + Lanes.LogRising(size, Seen));
                AddNegativeBinomial(totals, logTotals, size, size, Seen, new(Share), result, room);
                break;
        }
    }

    private Lane Size(Lane clumping) =>
        _evidence switch
        {
            AliquotEvidence aliquots => new Lane(aliquots.Samples.Count) * clumping,
            AliquotSumEvidence sum => new Lane(sum.Aliquots) * clumping,
            KnownClumpingEvidence clumped => new(clumped.Size),
            LookEvidence look => new(look.Scatter),
            _ => new(1e6),
        };

    private static void AddNegativeBinomial(
        ReadOnlySpan<Lane> totals,
        ReadOnlySpan<Lane> logTotals,
        Lane allSizes,
        Lane size,
        int seen,
        Lane share,
        Span<Lane> result,
        Span<Lane> logs
    )
    {
        for (var i = 0; i < totals.Length; i++)
        {
            logs[i] = size + (share * totals[i]);
        }

        Lanes.Log(logs);
        var weight = new Lane(seen) + allSizes;
        var constant = allSizes * Lanes.Log(size);
        for (var i = 0; i < totals.Length; i++)
        {
            result[i] += constant + (new Lane(seen) * logTotals[i]) - (weight * logs[i]);
        }
    }

    private void Full(ReadOnlySpan<Lane> totals, FullEvidence full, Span<Lane> result, Span<Lane> logs)
    {
        var (own, square) = (new Lane(0.25), new Lane(full.ErrorCv * full.ErrorCv));
        for (var i = 0; i < totals.Length; i++)
        {
            logs[i] = own + (square * totals[i] * totals[i]);
        }

        Lanes.Log(logs);
        for (var i = 0; i < totals.Length; i++)
        {
            var off = new Lane(Seen) - totals[i];
            var variance = own + (square * totals[i] * totals[i]);
            result[i] = new Lane(-0.5) * ((off * off / variance) + logs[i] + new Lane(LogTwoPi));
        }
    }

    private void AtLeast(ReadOnlySpan<Lane> totals, Span<Lane> result)
    {
        var width = new Lane(0.3 + (0.03 * Seen));
        for (var i = 0; i < totals.Length; i++)
        {
            result[i] = Vector.Min(
                new Lane(700),
                Vector.Max(new Lane(-700), (new Lane(Seen - 0.5) - totals[i]) / width)
            );
        }

        Lanes.Exp(result);
        for (var i = 0; i < totals.Length; i++)
        {
            result[i] += Lane.One;
        }

        Lanes.Log(result);
        for (var i = 0; i < totals.Length; i++)
        {
            result[i] = -result[i];
        }
    }
}
