using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>
/// The address under which phones know the house, and those it had before. A phone's store belongs to an address, so
/// a change is never made in passing.
/// </summary>
/// <param name="house">Where they are kept.</param>
public sealed class HouseAddresses(HouseStore house)
{
    /// <summary>The address of now, such as "https://broodtide.home.arpa:5443"; none before the house was first opened.</summary>
    public string? Current() =>
        house.Ask(file =>
            file.List(row => row.GetString(0), "SELECT origin FROM address WHERE until IS NULL")
        )
            is [var current]
            ? current
            : null;

    /// <summary>Addresses the house has left, the last one first; one it came back to is not among them.</summary>
    public IReadOnlyList<string> Former() =>
        house.Ask(file =>
            file.List(
                row => row.GetString(0),
                "SELECT origin FROM address WHERE until IS NOT NULL "
                    + "AND origin NOT IN (SELECT origin FROM address WHERE until IS NULL) "
                    + "GROUP BY origin ORDER BY max(until) DESC, origin"
            )
        );

    /// <summary>Keeps the first address. False, and nothing is changed, where there is one.</summary>
    public bool KeepFirst(string origin, Instant at)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(origin);
        return house.Change(file =>
            file.Run(
                "INSERT INTO address(origin, since) SELECT $origin, $at "
                    + "WHERE NOT EXISTS (SELECT 1 FROM address WHERE until IS NULL)",
                ("$origin", origin),
                ("$at", at.Milliseconds())
            ) == 1
        );
    }

    /// <summary>Leaves the address of now for another. False, and nothing is changed, where it is the same.</summary>
    public bool Move(string origin, Instant at)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(origin);
        return house.Change(file =>
        {
            (string, object?)[] arguments = [("$origin", origin), ("$at", at.Milliseconds())];
            if (
                file.List(
                    row => row.GetString(0),
                    "SELECT origin FROM address WHERE until IS NULL AND origin=$origin",
                    ("$origin", origin)
                ).Count > 0
            )
            {
                return false;
            }

            file.Run("UPDATE address SET until=$at WHERE until IS NULL", ("$at", at.Milliseconds()));
            file.Run("INSERT INTO address(origin, since) VALUES($origin, $at)", arguments);
            return true;
        });
    }
}
