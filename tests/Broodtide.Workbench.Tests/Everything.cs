using System.Collections;
using System.Globalization;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Tests;

/// <summary>Everything a thing says of itself, lists and what is in them too, as one text to be compared.</summary>
internal static class Everything
{
    /// <summary>The text.</summary>
    public static string Of(object? thing) =>
        thing switch
        {
            null => "-",
            string or Instant or Guid or bool or Enum => $"{thing}",
            double number => number.ToString("R", CultureInfo.InvariantCulture),
            IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
            Entry entry => $"{entry.Id}",
            Occurrence told => $"{told.Told.Id}",
            IEnumerable list => $"[{string.Join(' ', list.Cast<object?>().Select(Of))}]",
            _ when thing.GetType().Namespace?.StartsWith("Broodtide", StringComparison.Ordinal) is true => "{"
                + string.Join(
                    ' ',
                    thing
                        .GetType()
                        .GetProperties()
                        .Where(property => property.GetIndexParameters().Length == 0)
                        .Where(property =>
                            property.CanRead && property.GetMethod!.IsPublic && !property.GetMethod.IsStatic
                        )
                        .Where(property => property.Name is not "EqualityContract")
                        .Select(property => property.Name + ":" + Of(property.GetValue(thing)))
                )
                + "}",
            _ => $"{thing}",
        };
}
