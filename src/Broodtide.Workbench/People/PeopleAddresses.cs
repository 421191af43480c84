namespace Broodtide.Workbench.People;

/// <summary>Where phone and server speak of people, and the headers they use.</summary>
public static class PeopleAddresses
{
    /// <summary>Everything below; no slash at either end.</summary>
    public const string Root = "api/people";

    /// <summary>Who is in, and whether somebody owns the house.</summary>
    public const string Door = Root + "/door";

    /// <summary>The word for requests that change something.</summary>
    public const string Token = Root + "/token";

    /// <summary>Makes the first owner.</summary>
    public const string First = Root + "/first";

    /// <summary>Signs in.</summary>
    public const string SignIn = Root + "/sign-in";

    /// <summary>Tells what an invitation is for.</summary>
    public const string Invitation = Root + "/invitation";

    /// <summary>Uses an invitation.</summary>
    public const string Join = Root + "/join";

    /// <summary>Signs out.</summary>
    public const string SignOut = Root + "/sign-out";

    /// <summary>The sessions of who asks; with an id and /end it ends one.</summary>
    public const string MySessions = Root + "/me/sessions";

    /// <summary>Changes the passphrase of who asks.</summary>
    public const string MyPassphrase = Root + "/me/passphrase";

    /// <summary>Keeps how who asks likes to be shown things.</summary>
    public const string MyWays = Root + "/me/ways";

    /// <summary>What the owner may know of the backups.</summary>
    public const string Backups = "api/backups";

    /// <summary>The invitations; with an id and /withdraw it takes one back.</summary>
    public const string Invitations = Root + "/invitations";

    /// <summary>The sessions of anybody; with an id and /end it ends one.</summary>
    public const string Sessions = Root + "/sessions";

    /// <summary>The header that carries the word of <see cref="Token"/>.</summary>
    public const string TokenHeader = "Broodtide-Token";

    /// <summary>The header in which a phone says which store it writes.</summary>
    public const string ReplicaHeader = "Broodtide-Replica";
}
