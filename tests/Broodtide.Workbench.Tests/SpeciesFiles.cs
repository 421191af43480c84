using System.Globalization;
using System.Text;

namespace Broodtide.Workbench.Tests;

/// <summary>The files beside the tests, and a plain reader of comma-separated rows with quoted fields.</summary>
internal static class SpeciesFiles
{
    public static byte[] Profile { get; } = File.ReadAllBytes(At("species", "caridina-multidentata.json"));

    public static string ProfileText => Encoding.UTF8.GetString(Profile);

    public static string At(string folder, string name) =>
        Path.Combine(AppContext.BaseDirectory, folder, name);

    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string name)
    {
        var lines = File.ReadAllLines(At("reference", name));
        var columns = Fields(lines[0]);
        return
        [
            .. lines
                .Skip(1)
                .Select(line =>
                    (IReadOnlyDictionary<string, string>)
                        columns.Zip(Fields(line)).ToDictionary(pair => pair.First, pair => pair.Second)
                ),
        ];
    }

    public static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            ? number
            : null;

    private static List<string> Fields(string line)
    {
        var fields = new List<string>();
        var field = new StringBuilder();
        var quoted = false;
        foreach (var letter in line)
        {
            if (letter == '"')
            {
                quoted = !quoted;
            }
            else if (letter == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(letter);
            }
        }

        fields.Add(field.ToString());
        return fields;
    }
}
