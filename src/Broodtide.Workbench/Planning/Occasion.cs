using NodaTime;
using NodaTime.Text;

namespace Broodtide.Workbench.Planning;

/// <summary>Occasions as they stand in keys.</summary>
internal static class Occasion
{
    /// <summary>A civil day, ISO 8601.</summary>
    public static string Of(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
