using Broodtide.Science.Development;
using Broodtide.Scoring;

namespace Broodtide.Science.Tests.Development;

/// <summary>
/// A short form of eng/hatch-coverage: sixty invented broods. With nine in ten expected inside, 48 to 59 leaves out
/// less than one in a hundred on either side (binomial).
/// </summary>
public sealed class CoverageTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("broods").FullName;

    public CoverageTests() => Simulation.Broods.Write(_folder, 60, 20);

    [Fact]
    public void About_nine_in_ten_invented_hatches_lie_inside_and_the_plain_forecast_is_beaten()
    {
        var board = Score(ReferencePriors.ReferenceSpecies);

        Assert.Equal(60, board.Scored);
        Assert.InRange(board.Covered, 48, 59);
        Assert.True(board.IntervalScore < board.PlainIntervalScore, $"{board.Skill}");
    }

    [Fact]
    public void A_model_that_is_three_times_too_sure_is_caught()
    {
        var honest = ReferencePriors.ReferenceSpecies;
        var board = Score(
            honest with
            {
                Requirement =
                [
                    .. honest.Requirement.Select(part =>
                        part with
                        {
                            DaysAtReference = Third(part.DaysAtReference),
                        }
                    ),
                ],
                BaseSdCelsius = honest.BaseSdCelsius / 3,
                EyedRatio = Third(honest.EyedRatio),
                PaleLeadDays = Third(honest.PaleLeadDays),
                SaddleLeadDays = Third(honest.SaddleLeadDays),
            }
        );

        Assert.True(board.Covered < 48, $"{board.Covered} covered");
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static LognormalSpread Third(LognormalSpread spread) =>
        LognormalSpread.FromMedian(spread.Median, spread.LogSd / 3);

    private Board Score(EmbryoPrior prior)
    {
        var board = new Board(prior);
        foreach (var run in Directory.GetDirectories(_folder))
        {
            board.Take(run);
        }

        return board;
    }
}
