using System.Data.Common;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Storage.Households;

/// <summary>How each person of the house likes to be shown things, for the person's next phone.</summary>
/// <param name="house">Where it is kept.</param>
public sealed class HouseWays(HouseStore house)
{
    /// <summary>What a person chose last; none before anything was chosen.</summary>
    public WaysSeen? Of(PersonId person) =>
        house.Ask(file =>
            file.List(
                Read,
                "SELECT language, decimal_sign, units, clock FROM ways WHERE person=$person",
                ("$person", person.Value.Bytes())
            )
                is [var found]
                ? found
                : null
        );

    /// <summary>Keeps what a person chose, in place of what was chosen before.</summary>
    /// <exception cref="ArgumentException">A code is no short word of letters and figures.</exception>
    public void Keep(PersonId person, WaysSeen ways)
    {
        ArgumentNullException.ThrowIfNull(ways);
        if (!ways.IsPlain())
        {
            throw new ArgumentException("The codes are short words of letters and figures.", nameof(ways));
        }

        house.Change(file =>
            file.Run(
                "INSERT INTO ways(person, language, decimal_sign, units, clock) "
                    + "VALUES($person, $language, $decimal, $units, $clock) "
                    + "ON CONFLICT(person) DO UPDATE SET language=$language, decimal_sign=$decimal, "
                    + "units=$units, clock=$clock",
                ("$person", person.Value.Bytes()),
                ("$language", ways.Language),
                ("$decimal", ways.Decimal),
                ("$units", ways.Units),
                ("$clock", ways.Clock)
            )
        );
    }

    private static WaysSeen Read(DbDataReader row) =>
        new(Text(row, 0), Text(row, 1), Text(row, 2), Text(row, 3));

    private static string? Text(DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : row.GetString(column);
}
