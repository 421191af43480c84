using Broodtide.Science.Survival;
using Broodtide.Units;

namespace Broodtide.Workbench.Comparing;

/// <summary>One group of lives watched one by one.</summary>
/// <param name="Group">Its name.</param>
/// <param name="Curve">The share alive, step by step.</param>
public sealed record LivesOfGroup(string Group, SurvivalCurve Curve);

/// <summary>Lives watched one by one, compared (larvae kept singly, wells of a plate).</summary>
/// <param name="Groups">The groups, in the order of the table.</param>
/// <param name="LogRank">Whether they die alike; none for one group.</param>
public sealed record LivesCompared(IReadOnlyList<LivesOfGroup> Groups, LogRankResult? LogRank)
{
    /// <summary>Reads a table of lives, one row a life.</summary>
    /// <param name="table">The table.</param>
    /// <param name="group">Column of the group.</param>
    /// <param name="time">Column of the time at which it died or was last seen, 0 or more.</param>
    /// <param name="died">Column that says 1 where it died and 0 where it was alive when last seen.</param>
    /// <returns>The comparison, or what is wrong with the table.</returns>
    public static (LivesCompared? Compared, Remark? Why) Of(
        CellTable table,
        string group,
        string time,
        string died
    )
    {
        var (groupAt, noGroup) = table.Column(group);
        var (timeAt, noTime) = table.Column(time);
        var (diedAt, noDied) = table.Column(died);
        if ((noGroup ?? noTime ?? noDied) is { } missing)
        {
            return (null, missing);
        }

        var lives = new List<(string Group, Lifetime Life)>();
        foreach (var (line, cells) in table.Rows)
        {
            var (when, noWhen) = CellTable.Number(time, line, cells[timeAt]);
            if (noWhen is not null)
            {
                return (null, noWhen);
            }

            if (when < 0 || cells[diedAt] is not ("0" or "1"))
            {
                return (null, new Remark("table-no-life", new Argument("line", line)));
            }

            lives.Add(
                (cells[groupAt], cells[diedAt] is "1" ? Lifetime.DiedAt(when) : Lifetime.AliveAt(when))
            );
        }

        var groups = lives.GroupBy(life => life.Group, StringComparer.Ordinal).ToList();
        return (
            new(
                [
                    .. groups.Select(one => new LivesOfGroup(
                        one.Key,
                        KaplanMeier.Of([.. one.Select(life => life.Life)])
                    )),
                ],
                groups.Count > 1
                    ? Science.Survival.LogRank.Compare([
                        .. groups.Select(one => (IReadOnlyList<Lifetime>)[.. one.Select(life => life.Life)]),
                    ])
                    : null
            ),
            null
        );
    }
}
