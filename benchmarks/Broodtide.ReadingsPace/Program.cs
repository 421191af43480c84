using System.Globalization;
using Broodtide.ReadingsPace;

if (args is not [var connection, .. var counts] || counts.Length == 0)
{
    await Console.Error.WriteLineAsync("usage: readings-pace CONNECTION READINGS...");
    return 2;
}

await new Pace(connection).RunAsync([
    .. counts.Select(count => long.Parse(count, CultureInfo.InvariantCulture)),
]);
return 0;
