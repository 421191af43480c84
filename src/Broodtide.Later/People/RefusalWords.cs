using Broodtide.Phone.Language;
using Broodtide.Workbench.People;

namespace Broodtide.Phone.People;

/// <summary>Why the server says no, and what roles are called, in a person's words.</summary>
internal static class RefusalWords
{
    public static string Of(Refused refused, Words words)
    {
        var code = "people.no." + refused.Code;
        return words.Has(code) ? words[code, refused.Number ?? 0] : words["people.no.other", refused.Code];
    }

    public static string Role(string role, Words words)
    {
        var code = "people.role." + role;
        return words.Has(code) ? words[code] : role;
    }
}
