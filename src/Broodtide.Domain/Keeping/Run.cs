using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Keeping;

/// <summary>One brood carried through. A total view of the journal.</summary>
public sealed class Run
{
    private readonly List<ForecastIssued> _forecasts = [];

    private Run(RunId id) => Id = id;

    /// <summary>Identity.</summary>
    public RunId Id { get; }

    /// <summary>What it is called here.</summary>
    public string? Name { get; private set; }

    /// <summary>The brood.</summary>
    public BroodId? Brood { get; private set; }

    /// <summary>Scientific name: whose numbers apply.</summary>
    public string? Species { get; private set; }

    /// <summary>When it was begun.</summary>
    public Happened? Started { get; private set; }

    /// <summary>When and how the keeper ended it.</summary>
    public (Happened When, RunEnded How)? Ended { get; private set; }

    /// <summary>
    /// What was foretold, one per quantity and day: where several stores wrote one, the earliest written.
    /// </summary>
    public IReadOnlyList<ForecastIssued> Forecasts => _forecasts;

    /// <summary>The view of one run in an account.</summary>
    public static Run In(Account account, RunId id)
    {
        var run = new Run(id);
        var forecasts = new Dictionary<(string Quantity, string Day), Occurrence>();
        foreach (var occurrence in account.About(Subject.Of(id)))
        {
            switch (occurrence.Fact)
            {
                case RunStarted started:
                    run.Name = started.Name;
                    run.Brood = started.Brood;
                    run.Species = started.Species ?? run.Species;
                    run.Started ??= occurrence.Happened;
                    break;
                case RunEnded ended:
                    run.Ended = (occurrence.Happened, ended);
                    break;
                case ForecastIssued issued:
                    var key = (issued.Quantity, issued.Day);
                    if (
                        !forecasts.TryGetValue(key, out var held)
                        || OrderOfTelling.ByWriting(occurrence.Told, held.Told) < 0
                    )
                    {
                        forecasts[key] = occurrence;
                    }

                    break;
                default:
                    break;
            }
        }

        run._forecasts.AddRange(
            forecasts
                .OrderBy(forecast => forecast.Key.Day, StringComparer.Ordinal)
                .ThenBy(forecast => forecast.Key.Quantity, StringComparer.Ordinal)
                .Select(forecast => (ForecastIssued)forecast.Value.Fact)
        );
        return run;
    }
}
