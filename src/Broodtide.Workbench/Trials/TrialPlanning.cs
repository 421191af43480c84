using Broodtide.Science.Comparing;
using Broodtide.Science.Statistics;
using Broodtide.Science.Trials;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Trials;

/// <summary>
/// Plans a trial with what is at hand: how many vessels each treatment gets, which one gets which by chance, and the chance
/// of finding what is wished, by simulating the trial and the test it will get.
/// </summary>
public static class TrialPlanning
{
    private const double EightInTen = 0.8;
    private const int TrialsInPiece = 100;
    private const int PiecesOfPower = 10;
    private const double StepOfShare = 0.05;
    private const int FewLarvae = 10;

    // Above this, more than half of all such trials would find nothing.
    private const double LowPower = 0.5;

    /// <summary>The proposal.</summary>
    /// <param name="wishes">What is at hand.</param>
    /// <param name="profile">The species: how crowded larvae may be.</param>
    /// <exception cref="ArgumentException">The wishes are impossible; ask them first.</exception>
    public static TrialProposal Of(TrialWishes wishes, SpeciesProfile profile) =>
        InPieces(wishes, profile).Last()!;

    /// <summary>The same in pieces: none at each pause, the proposal last.</summary>
    public static IEnumerable<TrialProposal?> InPieces(TrialWishes wishes, SpeciesProfile profile)
    {
        if (wishes.Impossible() is { } no)
        {
            throw new ArgumentException($"Such a trial cannot be planned: {no.Code}.", nameof(wishes));
        }

        var replicates = wishes.Vessels / (wishes.Treatments * wishes.Blocks);
        var each = replicates * wishes.Blocks;
        var larvae = wishes.Larvae / (each * wishes.Treatments);
        var level = Probability.FromFraction(wishes.FalseFind.Value / (wishes.Treatments - 1));
        var smallest = VesselPermutation.SmallestP(each, each);
        SimulatedPower? power = null;
        Probability? found = null;
        if (smallest <= level)
        {
            foreach (var piece in PowerOf(wishes, level, wishes.Wished, each, larvae))
            {
                power = piece;
                yield return null;
            }

            foreach (var piece in Shares(wishes))
            {
                // Few trials for each step: it is a first idea of what could be found, to a step of five in a hundred.
                var chance = TrialPower.Of(
                    new(wishes.Usual, piece, level, Probability.FromFraction(EightInTen)),
                    each,
                    larvae,
                    wishes.Correlation,
                    wishes.Seed,
                    TrialsInPiece
                );
                yield return null;
                if (chance.Power.Value >= EightInTen)
                {
                    found = piece;
                    break;
                }
            }
        }

        var wanted = new WantedFind(wishes.Usual, wishes.Wished, level, Probability.FromFraction(EightInTen));
        var proposal = new TrialProposal
        {
            Wishes = wishes,
            Replicates = replicates,
            LarvaePerVessel = larvae,
            VesselsOver = wishes.Vessels - (each * wishes.Treatments),
            Level = level,
            SmallestP = smallest,
            Power = power,
            Found = found,
            VesselsWanted = Whole(SampleSizes.VesselsPerArm(wanted, larvae, wishes.Correlation)),
            VesselsAtLeast = Whole(SampleSizes.FewestVesselsPerArm(wanted, wishes.Correlation)),
            Layout = TrialLayout.Deal(wishes.Treatments, wishes.Blocks, replicates, wishes.Seed),
            Remarks = [],
        };
        yield return proposal with
        {
            Remarks = [.. Remarks(proposal, profile)],
        };
    }

    private static int Whole(double vessels) => (int)Math.Min(1e6, Math.Ceiling(Math.Max(1, vessels)));

    private static IEnumerable<SimulatedPower> PowerOf(
        TrialWishes wishes,
        Probability level,
        Probability share,
        int vessels,
        int larvae
    )
    {
        var wanted = new WantedFind(wishes.Usual, share, level, Probability.FromFraction(EightInTen));
        var found = 0;
        for (var piece = 1; piece <= PiecesOfPower; piece++)
        {
            var some = TrialPower.Of(
                wanted,
                vessels,
                larvae,
                wishes.Correlation,
                unchecked((wishes.Seed * 1009) + piece),
                TrialsInPiece
            );
            found += (int)Math.Round(some.Power.Value * TrialsInPiece);
            var trials = piece * TrialsInPiece;
            yield return new(
                Probability.FromFraction((double)found / trials),
                Proportions.Wilson(new(found, trials), Probability.FromFraction(0.9)),
                some.SmallestP,
                trials
            );
        }
    }

    // From next to the usual share away from it, towards the wished one and beyond.
    private static IEnumerable<Probability> Shares(TrialWishes wishes)
    {
        var way = wishes.Wished.Value > wishes.Usual.Value ? StepOfShare : -StepOfShare;
        for (var share = wishes.Usual.Value + way; share is > 0.005 and < 0.995; share += way)
        {
            yield return Probability.FromFraction(share);
        }
    }

    private static IEnumerable<Remark> Remarks(TrialProposal proposal, SpeciesProfile profile)
    {
        var wishes = proposal.Wishes;
        if (proposal.PerTreatment == 1)
        {
            yield return new Remark("trial-no-test");
        }
        else if (proposal.Power is null)
        {
            yield return new Remark(
                "trial-p-out-of-reach",
                new("vessels", proposal.PerTreatment),
                new("smallestP", proposal.SmallestP.Value),
                new("levelP", proposal.Level.Value)
            );
        }
        else if (proposal.Power.Power.Value < LowPower)
        {
            yield return new Remark(
                "trial-rather-missed",
                new Argument("powerPercent", proposal.Power.Power.Value * 100)
            );
        }

        if (proposal.VesselsAtLeast > proposal.PerTreatment)
        {
            yield return new Remark(
                "trial-larvae-are-no-vessels",
                new("wanted", proposal.VesselsAtLeast),
                new("vessels", proposal.PerTreatment)
            );
        }

        if (proposal.VesselsOver > 0)
        {
            yield return new Remark("trial-vessels-over", new Argument("vessels", proposal.VesselsOver));
        }

        if (proposal.LarvaePerVessel < FewLarvae)
        {
            yield return new Remark("trial-few-larvae", new Argument("larvae", proposal.LarvaePerVessel));
        }

        if (
            wishes.Water is { } water
            && profile.Find(QuantityCodes.LarvaePerLitre)?.Value is { } most
            && proposal.LarvaePerVessel / water.Litres > most
        )
        {
            yield return new Remark(
                "trial-crowded",
                new("larvae", proposal.LarvaePerVessel),
                new("mostPerLitre", most)
            );
        }

        if (wishes.Treatments > 2)
        {
            yield return new Remark(
                "trial-several-comparisons",
                new Argument("treatments", wishes.Treatments)
            );
        }

        if (wishes.Correlation == TrialWishes.AssumedCorrelation)
        {
            yield return new Remark(
                "trial-correlation-assumed",
                new Argument("correlation", wishes.Correlation.Value)
            );
        }

        yield return new Remark("trial-split-every-hatch");
        yield return new Remark("trial-same-care");
    }
}
