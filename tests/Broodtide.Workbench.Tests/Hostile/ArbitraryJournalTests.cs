using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Tests.Hostile;

public sealed class ArbitraryJournalTests
{
    public static TheoryData<int, int> Journals() =>
        [
            .. Enumerable
                .Range(1, 18)
                .Concat([24, 32])
                .Select(seed => (seed, seed % 4 == 0 ? 30 : seed % 4 * 3)),
        ];

    [Theory]
    [MemberData(nameof(Journals))]
    public void Every_view_of_whatever_was_written_is_told(int seed, int wild)
    {
        var entries = Scribble.Journal(seed, wild);
        Assert.NotEmpty(entries);
        Assert.NotEmpty(Told(entries));
    }

    [Theory]
    [MemberData(nameof(Journals))]
    public void Every_view_is_the_same_for_every_order_of_arrival(int seed, int wild)
    {
        var entries = Scribble.Journal(seed, wild);
        var other = entries.ToArray();
        new Random(seed).Shuffle(other);
        Assert.Equal(Told(entries), Told(other));
    }

    private static string Told(IReadOnlyList<Entry> entries)
    {
        var outlook = Outlook.Of(Account.Of(entries), Scribble.Now, Scribble.Zone);
        var house = outlook.House;
        var told = new List<string>
        {
            string.Join(
                ",",
                outlook.Due.Items.Select(item => $"{item.Action.Key} {item.Action.By} {item.Part}")
            ),
            string.Join(",", outlook.Conflicts.Select(conflict => $"{conflict}")),
            string.Join(",", outlook.Cultures.Select(culture => culture.Vessel)),
            string.Join(",", outlook.Plans.Select(plan => plan.ToString())),
            outlook.Tonight.ToString()!,
        };
        foreach (var ledger in outlook.Ledgers)
        {
            told.Add($"{ledger.Vessel} {ledger.SalinityPpt} {ledger.Litres}");
        }

        foreach (var forecast in outlook.Forecasts)
        {
            told.Add($"{forecast.Brood} {forecast.Median} {forecast.Window90}");
        }

        foreach (var animal in house.Animals)
        {
            told.Add(outlook.HistoryOf(animal).ToString()!);
            told.Add(outlook.CarryAgainOf(animal).ToString()!);
        }

        foreach (var run in house.Runs)
        {
            told.Add($"{outlook.AfterLossOf(run.Id)}");
        }

        foreach (var vessel in house.Vessels)
        {
            told.Add($"{outlook.MixedIn(vessel.Id)}");
        }

        foreach (var population in outlook.Populations.Take(1))
        {
            told.Add($"{outlook.EstimateOf(population).All.Alive}");
        }

        return string.Join("\n", told);
    }
}
