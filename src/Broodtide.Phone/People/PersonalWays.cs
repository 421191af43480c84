using Broodtide.Workbench.People;

namespace Broodtide.Phone.People;

/// <summary>
/// How a person likes to be shown things (language, decimal sign, units, clock): kept on the phone, so that it holds
/// without a network, and at the house, so that it is found on the person's next phone. What was chosen last is kept;
/// a choice made away from the house goes there at the next meeting.
/// </summary>
internal sealed class PersonalWays(
    SignedIn who,
    Func<string, string?> read,
    Func<string, string?, bool> write,
    Action taken
)
{
    // Whose choice has not reached the house yet.
    private const string Untold = "ways.untold";

    /// <summary>Whether who is in chose something that the house does not know yet.</summary>
    public bool IsUntold => who.Person is { } me && read(Untold) == me.Id.ToString();

    /// <summary>What was chosen here, as it is kept.</summary>
    public WaysSeen Here => new(read("language"), read("decimal"), read("units"), read("clock"));

    /// <summary>Something was chosen on this phone.</summary>
    public void Chose() => write(Untold, who.Person?.Id.ToString());

    /// <summary>The house knows what is chosen here.</summary>
    public void Told() => write(Untold, null);

    /// <summary>The house says what was chosen on another phone.</summary>
    public void Take(WaysSeen ways)
    {
        if (ways == Here)
        {
            return;
        }

        write("language", ways.Language);
        write("decimal", ways.Decimal);
        write("units", ways.Units);
        write("clock", ways.Clock);
        taken();
    }
}
