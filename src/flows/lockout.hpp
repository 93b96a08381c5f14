// Work on a machine that is locked out, guided while it is done. The state is folded from entries
// and moved by rules/lockout alone; this flow asks for one thing at a time and shows who is on.
// The lock on the machine protects people; no page claims that the kiosk does.
//
//   state       event              guard            next        entry
//   reviewing   review             -                shutdown    lockout-procedure-reviewed
//   reviewing   clear              -                closing     lockout-cleared
//   shutdown    shut-down          a prop is out    propping    lockout-shut-down
//   shutdown    shut-down          a source is on   isolating   lockout-shut-down
//   shutdown    clear              -                closing     lockout-cleared
//   shutdown    tell               -                shutdown    procedures-told
//   propping    set-prop           a prop is out    propping    prop-set
//   propping    set-prop           a source is on   isolating   prop-set
//   propping    set-prop           no lock          locking     prop-set
//   propping    set-prop           energy is left   relieving   prop-set
//   propping    set-prop           all done         working     prop-set
//   propping    report-prop        -                propping    prop-damaged    then out only
//   propping    clear              a lock is on     unlocking   lockout-cleared
//   propping    clear              a prop is in     lift-off    lockout-cleared
//   propping    clear              nothing on       closing     lockout-cleared
//   isolating   isolate            a source is on   isolating   energy-isolated
//   isolating   isolate            a measure open   tagging     energy-isolated
//   isolating   isolate            no lock          locking     energy-isolated
//   isolating   isolate            energy is left   relieving   energy-isolated
//   isolating   isolate            all done         working     energy-isolated
//   isolating   clear              a lock is on     unlocking   lockout-cleared
//   isolating   clear              a prop is in     lift-off    lockout-cleared
//   isolating   clear              nothing on       closing     lockout-cleared
//   tagging     take-measure       a measure open   tagging     energy-measure-taken
//   tagging     take-measure       no lock          locking     energy-measure-taken
//   tagging     take-measure       energy is left   relieving   energy-measure-taken
//   tagging     clear              a lock is on     unlocking   lockout-cleared
//   tagging     clear              a prop is in     lift-off    lockout-cleared
//   tagging     clear              nothing on       closing     lockout-cleared
//   locking     place-lock         energy is left   relieving   lock-placed
//   locking     place-lock         not tried        trying      lock-placed
//   locking     clear              a lock is on     unlocking   lockout-cleared
//   locking     clear              a prop is in     lift-off    lockout-cleared
//   locking     clear              nothing on       closing     lockout-cleared
//   locking     remove-for-absent  energy is left   relieving   lock-removed-for-absent
//   locking     remove-for-absent  not tried        trying      lock-removed-for-absent
//   locking     hand-over          energy is left   relieving   lock-handed-over
//   locking     hand-over          not tried        trying      lock-handed-over
//   relieving   see-prop           a prop is out    propping    prop-seen
//   relieving   see-prop           energy is left   relieving   prop-seen
//   relieving   see-prop           not tried        trying      prop-seen
//   relieving   see-prop           all done         working     prop-seen
//   relieving   relieve            energy is left   relieving   energy-relieved
//   relieving   relieve            not tried        trying      energy-relieved
//   relieving   report-prop        -                relieving   prop-damaged
//   relieving   clear              a lock is on     unlocking   lockout-cleared
//   relieving   clear              a prop is in     lift-off    lockout-cleared
//   relieving   remove-for-absent  no lock          locking     lock-removed-for-absent
//   trying      try                a source is on   isolating   lockout-tried
//   trying      try                all done         working     lockout-tried
//   trying      clear              -                unlocking   lockout-cleared
//   trying      remove-for-absent  no lock          locking     lock-removed-for-absent
//   working     place-lock         -                working     lock-placed
//   working     reverify           all done         working     lockout-reverified
//   working     reverify           moved            leaving     lockout-reverified
//   working     miss               -                leaving     reverify-missed
//   working     begin-test         -                testing     lockout-test-run
//   working     clear              a lock is on     unlocking   lockout-cleared
//   working     clear              a prop is in     lift-off    lockout-cleared
//   working     remove-lock        -                working     lock-removed
//   working     remove-for-absent  no lock          locking     lock-removed-for-absent
//   working     remove-for-absent  all done         working     lock-removed-for-absent
//   working     hand-over          -                working     lock-handed-over
//   leaving     leave-zone         a prop is out    propping    zone-left
//   leaving     leave-zone         a source is on   isolating   zone-left
//   leaving     leave-zone         no lock          locking     zone-left
//   leaving     leave-zone         energy is left   relieving   zone-left
//   leaving     leave-zone         all out          looking     zone-left
//   leaving     remove-for-absent  -                leaving     lock-removed-for-absent
//   looking     reverify           no lock          locking     lockout-reverified
//   looking     reverify           all done         working     lockout-reverified
//   looking     reverify           moved            leaving     lockout-reverified
//   looking     clear              a lock is on     unlocking   lockout-cleared
//   looking     clear              a prop is in     lift-off    lockout-cleared
//   looking     clear              nothing on       closing     lockout-cleared
//   testing     miss               -                leaving     reverify-missed
//   testing     end-test           -                isolating   lockout-test-ended
//   unlocking   remove-lock        a lock is on     unlocking   lock-removed
//   unlocking   remove-lock        a prop is in     lift-off    lock-removed
//   unlocking   remove-lock        nothing on       closing     lock-removed
//   unlocking   remove-for-absent  a lock is on     unlocking   lock-removed-for-absent
//   unlocking   remove-for-absent  a prop is in     lift-off    lock-removed-for-absent
//   unlocking   remove-for-absent  nothing on       closing     lock-removed-for-absent
//   unlocking   hand-over          -                unlocking   lock-handed-over
//   lift-off    lift-off           -                engine-off  lift-off
//   engine-off  stop-engine        -                unprop      engine-stopped
//   unprop      stow-prop          a prop is in     unprop      prop-stowed
//   unprop      stow-prop          nothing on       closing     prop-stowed
//   closing     close              -                closed      lockout-closed
//
// At every other step too a person takes off their own lock, the key is handed over, and two people
// take off the lock of somebody absent, without the step changing. Somebody of another employer
// does nothing before they and the site have told each other their procedures (`tell`).
#pragma once

#include <string>

#include "flows/lockout_table.hpp"
#include "flows/session.hpp"

namespace holdpin {

class LockoutFlow final : public Flow {
  public:
    explicit LockoutFlow(std::string plate) : plate_(std::move(plate)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    // Where nothing runs yet: what goes in?
    Result<Page> start_page(const Session& session) const;
    Result<Next> start(Session& session, const Action& action);
    // The key holder's next step.
    Page step_page(const Session& session, const Lockout& state) const;
    Result<Next> act_step(Session& session, const Lockout& state, const Action& action);
    Result<Next> read(Session& session, const Lockout& state, const std::string& reading);
    Result<Next> done(Session& session, const Lockout& state);
    // Everybody else, and the key holder during the work: who is on, and what they can do.
    Result<Page> board_page(const Session& session, const Lockout& state) const;
    Result<Next> act_board(Session& session, const Lockout& state, const Action& action);
    bool on_board(const Session& session, const Lockout& state) const;
    Result<Next> fetch_second(Session& session);

    std::string plate_;
    std::string second_;       // has signed as the second person and reads the props now
    bool show_board_ = false;  // the key holder looks at it between two steps
};

}  // namespace holdpin
