using System.Globalization;
using System.Text;
using NodaTime;

namespace Broodtide.Benchmarks;

/// <summary>A logger's file as a keeper gets it: local time, decimal commas, a reading a minute.</summary>
internal static class LoggerFile
{
    /// <summary>The file's text.</summary>
    /// <param name="rows">How many readings.</param>
    public static string Rows(int rows)
    {
        var text = new StringBuilder("Zeit;Temperatur\n");
        var at = new LocalDateTime(2024, 1, 1, 0, 0);
        for (var row = 0; row < rows; row++)
        {
            text.Append(at.ToString("dd.MM.uuuu HH:mm", CultureInfo.InvariantCulture))
                .Append(';')
                .Append(
                    (24 + (row % 97 / 40.0)).ToString("F2", CultureInfo.InvariantCulture).Replace('.', ',')
                )
                .Append('\n');
            at = at.PlusMinutes(1);
        }

        return text.ToString();
    }
}
