using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Workbench.Losses;

/// <summary>Larvae in one vessel, from their crossing to the end.</summary>
internal sealed record LarvaStay(Outlook Outlook, Vessel Vessel, Instant Since, Instant Until)
{
    public double Hours => Math.Max(0, (Until - Since).TotalHours);

    public IEnumerable<(Instant When, T Fact)> Facts<T>()
        where T : Fact
    {
        foreach (var occurrence in Outlook.House.Account.About(Subject.Of(Vessel.Id)))
        {
            if (
                occurrence.Fact is T fact
                && occurrence.Happened.Latest >= Since
                && occurrence.Happened.Earliest <= Until
            )
            {
                yield return (occurrence.Happened.Latest, fact);
            }
        }
    }
}
